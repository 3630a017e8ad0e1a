import type { Purpose } from "#domain/aim/aim.ts";
import { counted } from "../format/counted.ts";
import { Layout } from "../parts/layout.tsx";
import { DoneNotice } from "../parts/notice.tsx";

export type ShownPurpose = Purpose & {
  readonly isAside: boolean;
  readonly isReadyMade: boolean;
  readonly asks: string;
  readonly version: number;
  readonly masters: number;
  readonly none: number;
  readonly byHand: number;
  readonly tooClose: number;
};

export type PurposesPageProps = { collectionName: string; purposes: readonly ShownPurpose[]; done?: string };

/** What masters are chosen for, and how each purpose stands. */
export const PurposesPage = ({ collectionName, purposes, done }: PurposesPageProps) => (
  <Layout title="Purposes" section={null} collectionName={collectionName}>
    <div class="page">
      <header class="page-head">
        <div>
          <h1>Purposes</h1>
          <p>
            What a master is for decides which capture is the best. Each purpose has an aim: what it asks of the measures. The ready-made
            ones stay as published; copy one to change it.
          </p>
        </div>
      </header>
      <DoneNotice done={done} />
      <ul class="purposes">
        {purposes.map((purpose) => (
          <li class="card" id={`purpose-${purpose.key}`}>
            <h2>
              <a href={`/purposes/${purpose.key}`}>{purpose.name}</a>
            </h2>
            {purpose.note ? <p>{purpose.note}</p> : null}
            <p class="small soft">
              {purpose.isReadyMade ? "Ready-made" : "Your own"}
              {purpose.isAside ? ", set aside" : ""}. {purpose.asks}; version {purpose.version}.
            </p>
            <p class="small">{standingInWords(purpose)}</p>
          </li>
        ))}
      </ul>
    </div>
  </Layout>
);

export function standingInWords({ masters, none, byHand, tooClose }: Omit<ShownPurpose, keyof Purpose>): string {
  if (masters + none === 0) return "Nothing is chosen for it yet.";
  const more = [
    ...(byHand > 0 ? [`${byHand} chosen by hand`] : []),
    ...(tooClose > 0 ? [`${tooClose} too close to call`] : []),
    ...(none > 0 ? [`${counted(none, "side has", "sides have")} none that is good enough`] : []),
  ];
  return `${counted(masters, "master", "masters")}${more.length > 0 ? `; ${more.join("; ")}` : ""}.`;
}
