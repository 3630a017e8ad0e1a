import { FORMATS } from "#domain/print/format.ts";
import { FORMAT_GROUPS, type FormatGroup } from "#domain/print/print-format.ts";
import { sizeInMm } from "../format/millimetres.ts";
import { FormatFacts } from "../parts/format-facts.tsx";
import { Layout } from "../parts/layout.tsx";

/** Every format with its nominal size, its source and its doubt; the chosen one on top. */
export const FormatsPage = (props: { collectionName: string; formatId: string }) => (
  <Layout title="Formats" section="prints" collectionName={props.collectionName}>
    <div class="page">
      <header class="page-head">
        <div>
          <h1>Formats</h1>
          <p>Nominal sizes, width before height. Makers and books differ by a millimetre and more: what you measure always wins.</p>
        </div>
      </header>
      {props.formatId === "" ? null : (
        <div class="card">
          <FormatFacts formatId={props.formatId} />
        </div>
      )}
      {(Object.keys(FORMAT_GROUPS) as FormatGroup[]).map((group) => (
        <FormatGroupTable group={group} />
      ))}
    </div>
  </Layout>
);

const FormatGroupTable = ({ group }: { group: FormatGroup }) => (
  <section class="table-frame">
    <table class="table">
      <caption>{FORMAT_GROUPS[group]}</caption>
      <thead>
        <tr>
          <th scope="col">Format</th>
          <th scope="col">Sheet</th>
          <th scope="col">Image</th>
          <th scope="col">Period</th>
          <th scope="col">Source and doubt</th>
        </tr>
      </thead>
      <tbody>
        {FORMATS.filter((format) => format.group === group).map((format) => (
          <tr>
            <th scope="row">
              {format.name}
              <span class="second-line">
                <code>{format.id}</code>
              </span>
            </th>
            <td class="keep-together">
              {sizeInMm(format.sheetWidthMm, format.sheetHeightMm)} ± {format.toleranceMm}
            </td>
            <td class="keep-together">
              {format.imageWidthMm === null || format.imageHeightMm === null ? (
                <span class="soft">not said</span>
              ) : (
                sizeInMm(format.imageWidthMm, format.imageHeightMm)
              )}
            </td>
            <td>{format.period}</td>
            <td>
              {format.source}
              {format.doubt === null ? null : <span class="second-line">{format.doubt}</span>}
            </td>
          </tr>
        ))}
      </tbody>
    </table>
  </section>
);
