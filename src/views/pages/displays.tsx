import type { LightBudget, LightDose } from "#domain/storage/light-budget.ts";
import { Layout } from "../parts/layout.tsx";

export type DisplaysPageProps = {
  collectionName: string;
  /** those that used most of their year first */
  prints: readonly {
    readonly id: number;
    readonly objectNumber: string;
    readonly title: string;
    readonly budget: LightBudget;
    readonly dose: LightDose;
  }[];
};

/** Every print that was ever on display, with the light it has had. */
export const DisplaysPage = ({ collectionName, prints }: DisplaysPageProps) => (
  <Layout title="Display log" section="places" collectionName={collectionName}>
    <div class="page">
      <header class="page-head">
        <div>
          <h1>Display log</h1>
          <p>
            The light that prints have had, against the published limit of each. Prints without an entry are not listed: their light is not
            known.
          </p>
        </div>
      </header>
      {prints.length === 0 ? (
        <section class="card">
          <p>No days on display are logged yet. Log them from the page of a print.</p>
        </section>
      ) : (
        <div class="table-frame">
          <table class="table table-stacked">
            <caption class="visually-hidden">Prints that were on display</caption>
            <thead>
              <tr>
                <th scope="col">Print</th>
                <th scope="col">Now</th>
                <th scope="col" class="number">
                  Lux hours, 365 days
                </th>
                <th scope="col" class="number">
                  Limit a year
                </th>
                <th scope="col" class="number">
                  Used
                </th>
                <th scope="col" class="number">
                  Lux hours, ever
                </th>
              </tr>
            </thead>
            <tbody>
              {prints.map(({ id, objectNumber, title, budget, dose }) => (
                <tr>
                  <th scope="row">
                    <a href={`/prints/${id}/displays`}>
                      <span class="object-number">{objectNumber}</span> {title}
                    </a>
                  </th>
                  <td data-label="Now">{dose.isOnDisplay ? "on display" : "not on display"}</td>
                  <td class="number" data-label="Lux hours, 365 days">
                    {figure(dose.luxHoursThisYear)}
                  </td>
                  <td class="number" data-label="Limit a year">
                    {budget.luxHoursAYear === null ? "not at all" : figure(budget.luxHoursAYear)}
                  </td>
                  <td class="number" data-label="Used">
                    {dose.shareOfYear === null ? "over" : `${Math.round(dose.shareOfYear * 100)} %`}
                  </td>
                  <td class="number" data-label="Lux hours, ever">
                    {figure(dose.luxHours)}
                  </td>
                </tr>
              ))}
            </tbody>
          </table>
        </div>
      )}
    </div>
  </Layout>
);

const figure = (luxHours: number): string => Math.round(luxHours).toLocaleString("en-GB");
