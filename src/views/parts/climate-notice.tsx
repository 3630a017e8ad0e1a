import { type CareFacts, climateFactor } from "#domain/storage/care-priority.ts";
import { climateLimitOf, limitInWords } from "#domain/storage/climate/published-limits.ts";
import { Notice } from "./notice.tsx";

const levelOf = (score: number) => (score >= 3 ? "warning" : score === 2 ? "caution" : "notice");

/** What the climate where a print is kept means for its process. */
export function ClimateNotice({
  climate,
  processId,
  placeId,
}: {
  climate: CareFacts["climate"];
  processId: string;
  placeId: number | null;
}) {
  const limit = climateLimitOf(processId);
  const { score, because } = climateFactor(climate);
  return (
    <>
      {climate.known ? (
        <Notice level={levelOf(score)}>
          <p>In the last 365 days of readings its place was {because}.</p>
          <p class="small soft">
            Limit for {limit.name.toLowerCase()}: {limitInWords(limit)}. {limit.source}. {limit.doubt}
          </p>
        </Notice>
      ) : (
        <p class="soft">What climate it lives in is not told: {climate.reason}.</p>
      )}
      {placeId === null ? null : (
        <p>
          <a href={`/places/${placeId}/climate`}>Climate of its place</a>
        </p>
      )}
    </>
  );
}
