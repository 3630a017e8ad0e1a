import type { ClimateDay, DayOf } from "#domain/storage/climate/days.ts";

/** What the chart shows, month by month. */
export function MonthTable({ days }: { days: readonly ClimateDay[] }) {
  const months = new Map<string, ClimateDay[]>();
  for (const day of days) {
    const month = new Date(day.startSeconds * 1000).toISOString().slice(0, 7);
    months.set(month, [...(months.get(month) ?? []), day]);
  }
  return (
    <div class="table-frame">
      <table class="table">
        <caption class="visually-hidden">Lowest, mean and highest of each month</caption>
        <thead>
          <tr>
            <th scope="col">Month</th>
            <th scope="col" class="number">
              Temperature, °C
            </th>
            <th scope="col" class="number">
              Humidity, %
            </th>
          </tr>
        </thead>
        <tbody>
          {[...months].map(([month, of]) => (
            <tr>
              <th scope="row">{month}</th>
              <td class="number">{rangeOf(of.map((day) => day.temperatureC))}</td>
              <td class="number">{rangeOf(of.map((day) => day.humidityPercent))}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}

/** Lowest, mean and highest. */
function rangeOf(all: readonly (DayOf | null)[]): string {
  const days = all.filter((day) => day !== null);
  const seconds = days.reduce((sum, day) => sum + day.heldSeconds, 0);
  if (seconds === 0) return "no reading";
  const mean = days.reduce((sum, day) => sum + day.mean * day.heldSeconds, 0) / seconds;
  const figures = [Math.min(...days.map((day) => day.least)), mean, Math.max(...days.map((day) => day.most))];
  return figures.map((figure) => figure.toFixed(1)).join(" / ");
}
