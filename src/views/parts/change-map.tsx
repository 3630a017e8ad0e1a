import { beforeInWords, statesInWords } from "#domain/condition/change/before-in-words.ts";
import type { Change } from "#domain/condition/change/change-between.ts";
import type { Structure } from "#domain/condition/change/structures.ts";
import { VERDICT_WORDS } from "#domain/condition/change/verdict.ts";
import { asSentence } from "#domain/sentence.ts";
import { counted } from "../format/counted.ts";

const KIND_WORDS = { line: "Line, such as a crack", spot: "Spot", patch: "Patch, such as a stain" } as const;

/** What changed at places over the newer capture, numbered as in the table below it; what is new stands in an unbroken frame. */
export function ChangeMap({ change, picture }: { change: Change; picture: string }) {
  const { structures, sheetMm, untoldStructures } = change;
  if (structures.length === 0)
    return <p>No new or grown crack, stain or spot was found once exposure, colour and even fading are taken out.</p>;
  const size = Math.max(sheetMm.widthMm, sheetMm.heightMm) / 28;
  return (
    <>
      <figure class="change-map">
        <svg
          viewBox={`0 0 ${sheetMm.widthMm} ${sheetMm.heightMm}`}
          role="img"
          aria-label={`The newer capture with ${statesInWords(structures)}; the table below names them`}
        >
          <image href={picture} width={sheetMm.widthMm} height={sheetMm.heightMm} preserveAspectRatio="none" />
          {structures.map(({ box, before }, index) => {
            const frame = before.state === "new" ? undefined : "change-of-old";
            const around = { x: box.left - 0.4, y: box.top - 0.4, width: box.width + 0.8, height: box.height + 0.8 };
            return (
              <g>
                <rect class="change-halo" {...around} />
                <rect class={frame} {...around} />
                <text x={around.x} y={around.y > size ? around.y - 0.3 : around.y + around.height + size} font-size={size}>
                  {index + 1}
                </text>
              </g>
            );
          })}
        </svg>
        <figcaption>
          Unbroken frame: new. Dashes: it touches what the older capture shows there, or that is not told.{" "}
          {asSentence(statesInWords(structures))}
        </figcaption>
      </figure>
      <section class="table-frame" aria-labelledby="change-places-title" tabindex={0}>
        <table class="table table-stacked change-table">
          <caption id="change-places-title" class="visually-hidden">
            New or altered places
          </caption>
          <thead>
            <tr>
              <th scope="col">No.</th>
              <th scope="col">What</th>
              <th scope="col">Before</th>
              <th scope="col">Area</th>
              <th scope="col">Length</th>
              <th scope="col">Colour difference</th>
              <th scope="col">From the left, from the top</th>
              <th scope="col">In words</th>
            </tr>
          </thead>
          <tbody>
            {structures.map((structure, index) => (
              <tr>
                <th scope="row">{index + 1}</th>
                <td>
                  {structureInWords(structure)}; {toneOf(structure)}
                </td>
                <td data-label="Before">{beforeInWords(structure)}</td>
                <td class="change-number" data-label="Area">
                  {structure.areaMm2.toFixed(1)} mm²
                </td>
                <td class="change-number" data-label="Length">
                  {structure.lengthMm.toFixed(1)} mm
                </td>
                <td class="change-number" data-label="Colour difference">
                  {structure.deltaE2000.toFixed(1)} ΔE00
                </td>
                <td class="change-number" data-label="From the left, from the top">
                  {structure.box.left.toFixed(1)}, {structure.box.top.toFixed(1)} mm
                </td>
                <td>
                  {asSentence(VERDICT_WORDS[structure.verdict])} {structure.doubt}
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      </section>
      {untoldStructures > 0 ? <p>There are {counted(untoldStructures, "smaller place", "smaller places")} besides.</p> : null}
    </>
  );
}

/** "Spot, on the border" */
export const structureInWords = ({ kind, part }: Pick<Structure, "kind" | "part">): string => `${KIND_WORDS[kind]}, on the ${part}`;

function toneOf({ deltaL, deltaB }: Structure): string {
  const tone = deltaL < -0.5 ? "darker" : deltaL > 0.5 ? "lighter" : "as light as before";
  return Math.abs(deltaB) < 1 ? tone : `${tone}, ${deltaB > 0 ? "yellower" : "bluer"}`;
}
