import { CHECK_WORDS } from "#domain/target/check-input.ts";
import { type FormState, LongField, TextField } from "./field.tsx";
import { FileField } from "./file-field.tsx";

const PICTURES = "image/*,.tif,.tiff,.dng,.heic";

/** A picture of a target, with the files that say what is on it. */
export const NewCheck = ({ setUpId, form }: { setUpId: number; form: FormState }) => (
  <form class="card" method="post" action={`/set-ups/${setUpId}/checks`} enctype="multipart/form-data">
    <h2>Check it on a target</h2>
    <p>
      Lay the target where prints lie, on a plain ground of another tone, and take it as you take prints: same distance, light, settings and
      file. Reading it takes some seconds. Without a bought target, <a href="/target-page.pdf">print this page</a>: it proves detail,
      evenness and scale, not tones and colours. Evenness over the whole frame is told by{" "}
      <a href={`/set-ups/${setUpId}/even-sheet`}>a plain white sheet</a>.
    </p>
    <FileField form={form} name="picture" {...CHECK_WORDS.picture} accept={PICTURES} isRequired />
    <FileField form={form} name="layout" {...CHECK_WORDS.layout} accept=".json,application/json" />
    <p class="hint">
      <a href="/target-layout.json">The layout of the page that is printed here</a> shows how one is written: mm from the top left of the
      target, patches by the names of the reference file.
    </p>
    <FileField form={form} name="reference" {...CHECK_WORDS.reference} accept=".txt,.cie,.cgats,text/plain" />
    <DayAndNote form={form} />
    <button class="button" type="submit">
      Read the target
    </button>
  </form>
);

/** A picture of plain paper that fills the frame. */
export const NewEvenSheet = ({ setUpId, form }: { setUpId: number; form: FormState }) => (
  <form class="card" method="post" action={`/set-ups/${setUpId}/even-sheet`} enctype="multipart/form-data">
    <p>
      Lay a plain white or light grey sheet, without creases, where prints lie, so that it fills the whole frame. Take it as you take
      prints: same distance, light, glass and settings, with the focus as it is for a print. Nothing in it may be clipped.
    </p>
    <FileField form={form} name="picture" {...CHECK_WORDS.picture} label="Picture of the sheet" accept={PICTURES} isRequired />
    <DayAndNote form={form} />
    <p class="actions">
      <button class="button" type="submit">
        Read the sheet
      </button>
      <a href={`/set-ups/${setUpId}/checks`}>Leave without it</a>
    </p>
  </form>
);

const DayAndNote = ({ form }: { form: FormState }) => (
  <>
    <TextField form={form} name="takenOn" {...CHECK_WORDS.takenOn} most={20} />
    <LongField form={form} name="note" {...CHECK_WORDS.note} rows={2} most={1000} />
  </>
);
