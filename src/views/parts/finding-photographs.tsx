import type { FindingPhotograph } from "#domain/condition/finding-photograph.ts";
import { FileName } from "./file-name.tsx";
import { Moment } from "./moment.tsx";

/** Photographs of one thing found, oldest first; each leads to its file as it came. */
export function FindingPhotographs({ photographs, of }: { photographs: readonly FindingPhotograph[]; of: string }) {
  if (photographs.length === 0) return null;
  return (
    <ul class="finding-photographs">
      {photographs.map((photograph) => (
        <li>
          <Photograph photograph={photograph} of={of} />
        </li>
      ))}
    </ul>
  );
}

export const Photograph = ({ photograph, of }: { photograph: FindingPhotograph; of: string }) => {
  const { id, caption, name, takenAt, addedAt, who, widthPx, heightPx } = photograph;
  return (
    <figure>
      <a href={`/photographs/${id}/original`}>
        <img
          src={`/photographs/${id}/thumbnail.jpg`}
          alt={caption ? `${of}: ${caption}` : `Photograph of ${of}`}
          width={widthPx}
          height={heightPx}
          loading="lazy"
        />
      </a>
      <figcaption class="small">
        {caption ? <span class="as-typed">{caption}</span> : <FileName name={name} />}
        <span class="soft second-line">
          {takenAt ? `Taken ${takenAt.slice(0, 10)}, as its camera says; added ` : "Added "}
          <Moment at={addedAt} />
          {who ? `, ${who}` : ""}
        </span>
      </figcaption>
    </figure>
  );
};
