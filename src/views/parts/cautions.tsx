import type { Child } from "hono/jsx";
import type { Method } from "#domain/capture/method.ts";
import { type Caution, standCautions } from "#domain/condition/cautions-for.ts";
import { counted } from "../format/counted.ts";
import { fieldId } from "./field.tsx";
import { PRINT_LABELS } from "./print-fields.tsx";

export const LEVEL_WORDS: Readonly<Record<Caution["level"], string>> = {
  danger: "Danger",
  warning: "Warning",
  caution: "Caution",
  notice: "Notice",
};

/** What to mind before the print leaves its sleeve: the grave in full where they are few, else a line each; the others behind their titles; then who knows better. */
export function Cautions({ cautions, printId, children }: { cautions: readonly Caution[]; printId: number; children?: Child }) {
  if (cautions.length === 0) return null;
  const grave = cautions.filter(isGrave);
  const others = cautions.filter((caution) => !isGrave(caution));
  return (
    <section class="cautions" aria-label="Cautions">
      <CautionList cautions={grave} printId={printId} isInFull={grave.length <= MOST_IN_FULL} />
      {others.length > 0 ? (
        <details class="more-cautions" open={grave.length === 0 && others.length <= MOST_IN_FULL}>
          <summary>
            {grave.length > 0 ? `${counted(others.length, "more caution", "more cautions")}: ` : "To mind: "}
            {others.map((caution) => caution.title).join("; ")}
          </summary>
          <CautionList cautions={others} printId={printId} isInFull />
        </details>
      ) : null}
      {children}
      {[...new Set(cautions.map((caution) => caution.defer))].map((line) => (
        <p class="small">{line}</p>
      ))}
      {/* not deferred: on a phone the cautions are folded before the picture below them is laid out */}
      <script src="/assets/fold-on-phone.js"></script>
    </section>
  );
}

/** The gravest caution in a few words, for lists that are carried to the shelf. */
export function CautionMark({ cautions }: { cautions: readonly Caution[] }) {
  const [gravest, ...others] = cautions;
  if (!gravest) return null;
  return (
    <span class={`caution-mark caution-mark-${gravest.level}`}>
      {LEVEL_WORDS[gravest.level]}: {gravest.title}
      {others.length > 0 ? ` and ${others.length} more` : ""}
    </span>
  );
}

/** For a sheet that is carried to the stand, beside one print: the titles alone, gravest first. What they ask for is said once a box. */
export function CautionTitles({ cautions }: { cautions: readonly Caution[] }) {
  if (cautions.length === 0) return <p class="small soft">No caution is known.</p>;
  const others = cautions.filter((caution) => !isGrave(caution));
  return (
    <>
      {cautions.filter(isGrave).map(({ level, title }) => (
        <p class={`caution-mark caution-mark-${level}`}>
          {LEVEL_WORDS[level]}: {title}
        </p>
      ))}
      {others.length > 0 ? <p class="small">To mind: {others.map(({ title }) => title).join("; ")}.</p> : null}
    </>
  );
}

/** What the grave cautions of several prints ask for, each once. */
export function CautionTexts({ cautions }: { cautions: readonly Caution[] }) {
  const grave = [...new Map(cautions.filter(isGrave).map((caution) => [caution.title, caution])).values()];
  if (grave.length === 0) return null;
  return (
    <ul class="caution-texts">
      {grave.map(({ level, title, text }) => (
        <li>
          <span class={`caution-mark caution-mark-${level}`}>
            {LEVEL_WORDS[level]}: {title}
          </span>
          {text}
        </li>
      ))}
    </ul>
  );
}

/** What can hurt whoever stands at the stand or the scanner; said once, above the prints. */
export const StandCautions = ({ method }: { method: Method | null }) => (
  <>
    {standCautions(method).map(({ level, title, text, defer }) => (
      <p class="small">
        <strong>
          {LEVEL_WORDS[level]}: {title}.
        </strong>{" "}
        {text} {defer}
      </p>
    ))}
  </>
);

/** More of them in full push the picture off the screen: each is its title then, and the grave have a line each. */
const MOST_IN_FULL = 2;

const isGrave = (caution: Caution) => caution.level === "danger" || caution.level === "warning";

const CautionList = ({ cautions, printId, isInFull }: { cautions: readonly Caution[]; printId: number; isInFull: boolean }) =>
  cautions.length === 0 ? null : (
    <div class="caution-list">
      {cautions.map((caution) => (
        <div class={`notice notice-${caution.level}`}>
          <details class="caution-fold" open={isInFull} data-fold-on-phone>
            <summary>
              <h2>
                {LEVEL_WORDS[caution.level]}: {caution.title}
              </h2>
            </summary>
            <p>{caution.text}</p>
            {caution.toEnd ? (
              <p>
                <a href={`/prints/${printId}/edit#${fieldId(caution.toEnd.field)}`}>Fill in “{PRINT_LABELS[caution.toEnd.field]}”</a>.{" "}
                {caution.toEnd.words}
              </p>
            ) : null}
            <details class="caution-ground">
              <summary>Why, and who says so</summary>
              <p>{caution.cause}</p>
              <p>Source: {caution.source}</p>
            </details>
          </details>
        </div>
      ))}
    </div>
  );
