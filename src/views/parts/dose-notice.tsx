import { doseInWords, type LightBudget, type LightDose, WARNING_SHARE } from "#domain/storage/light-budget.ts";
import { Notice } from "./notice.tsx";

/** What the light so far means. A budget that is near its end is a caution, one that is spent a warning. */
export function DoseNotice({ dose, budget, isLogged }: { dose: LightDose; budget: LightBudget; isLogged: boolean }) {
  const share = dose.shareOfYear ?? (isLogged ? Number.POSITIVE_INFINITY : 0);
  const level = share > 1 ? "warning" : share >= WARNING_SHARE ? "caution" : "notice";
  return (
    <Notice level={level}>
      <p>{doseInWords(dose, budget, isLogged)}</p>
      {isLogged ? (
        <p>For life so far: {Math.round(dose.luxHours).toLocaleString("en-GB")} lux hours. Light damage adds up and never heals.</p>
      ) : null}
      {dose.overlappingDays > 0 ? <p>{dose.overlappingDays} days are logged more than once: their light is counted each time.</p> : null}
      <p class="small soft">
        {budget.luxHoursAYear === null ? "Guideline" : "Limit"}: {budget.source}. {budget.doubt}
      </p>
    </Notice>
  );
}
