import { sameExposureAs } from "#domain/measure/file/saved-again.ts";
import type { Reading } from "#domain/measure/reading.ts";
import type { ShownCapture } from "./capture-card.tsx";
import { FileName } from "./file-name.tsx";
import { Notice } from "./notice.tsx";

/** On a capture's own page: that it is a copy of another, with the way there. */
export function SavedAgainNotice({ readings }: { readings: readonly Reading[] }) {
  const others = sameExposureAs(readings);
  if (others.length === 0) return null;
  return (
    <Notice level="notice">
      <p>
        The same exposure as{" "}
        {others.map((id, index) => (
          <>
            {index > 0 ? " and " : ""}
            <a href={`/captures/${id}`}>{others.length === 1 ? "another capture of this print" : `capture ${index + 1}`}</a>
          </>
        ))}
        , saved again. Neither bears out the detail that the other shows.
      </p>
    </Notice>
  );
}

/** On the print's page: which captures of a side are one exposure. */
export function SavedAgainList({ captures }: { captures: readonly (ShownCapture & { readonly readings: readonly Reading[] })[] }) {
  const pairs = captures.flatMap((capture) =>
    sameExposureAs(capture.readings).flatMap((id) => {
      const other = captures.find((each) => each.id === id);
      return other && other.id < capture.id ? [{ capture, other }] : [];
    }),
  );
  if (pairs.length === 0) return null;
  return (
    <Notice level="notice">
      {pairs.map(({ capture, other }) => (
        <p>
          <a href={`/captures/${capture.id}`}>
            <FileName name={capture.name} />
          </a>{" "}
          is the same exposure as{" "}
          <a href={`/captures/${other.id}`}>
            <FileName name={other.name} />
          </a>
          , saved again. Neither bears out the detail that the other shows.
        </p>
      ))}
    </Notice>
  );
}
