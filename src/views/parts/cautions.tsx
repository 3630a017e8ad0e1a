import type { Caution } from "#domain/condition/cautions-for.ts";
import { Notice } from "./notice.tsx";

const LEVEL_WORDS: Readonly<Record<Caution["level"], string>> = {
  danger: "Danger",
  warning: "Warning",
  caution: "Caution",
  notice: "Notice",
};

/** What to mind before the print leaves its sleeve, gravest first; each says who knows better than this page. */
export function Cautions({ cautions }: { cautions: readonly Caution[] }) {
  if (cautions.length === 0) return null;
  return (
    <section class="cautions" aria-label="Cautions">
      {cautions.map((caution) => (
        <Notice level={caution.level} title={`${LEVEL_WORDS[caution.level]}: ${caution.title}`}>
          <p>{caution.text}</p>
          <details class="caution-ground">
            <summary>Why it is shown, and its source</summary>
            <p>{caution.cause}</p>
            <p>Source: {caution.source}</p>
          </details>
          <p class="small">{caution.defer}</p>
        </Notice>
      ))}
    </section>
  );
}

/** The gravest caution in one word, for lists that are carried to the shelf. */
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
