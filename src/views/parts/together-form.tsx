import type { Child } from "hono/jsx";
import type { Side } from "#domain/capture/capture.ts";
import type { ShownCapture } from "./capture-card.tsx";
import { SIDE_LABELS } from "./capture-fields.tsx";
import { ChoiceField, type FormState } from "./field.tsx";
import { FileName } from "./file-name.tsx";
import { PrintThumbnail } from "./print-thumbnail.tsx";

/** A capture in the tray, with the side that its file name tells. */
export type WaitingCapture = { readonly capture: ShownCapture; readonly side: Side };

/** What a capture's side is called in the form, by which the capture is named too. */
const sideFieldOf = (captureId: number): string => `side${captureId}`;

/** Captures that are told their print in one step. Each says which side it shows, or that it stays in the tray. */
export const TogetherForm = (props: { waiting: readonly WaitingCapture[]; form: FormState; submit: string; children?: Child }) => (
  <form class="together" method="post" action="/tray/together">
    <ul class="together-captures">
      {props.waiting.map(({ capture, side }) => (
        <li id={`capture-${capture.id}`}>
          <a href={`/captures/${capture.id}`}>
            <PrintThumbnail captureId={capture.id} title={capture.name} />
            <span class="capture-name">
              <FileName name={capture.name} />
            </span>
          </a>
          <ChoiceField
            form={{ ...props.form, typed: { [sideFieldOf(capture.id)]: side, ...props.form.typed } }}
            name={sideFieldOf(capture.id)}
            id={`side-${capture.id}`}
            label="Side shown"
            choices={CHOICES}
          />
        </li>
      ))}
    </ul>
    {props.children}
    <button class="button" type="submit">
      {props.submit}
    </button>
  </form>
);

const CHOICES = [
  { value: "front", label: SIDE_LABELS.front },
  { value: "back", label: SIDE_LABELS.back },
  { value: "", label: "Leave it in the tray" },
];
