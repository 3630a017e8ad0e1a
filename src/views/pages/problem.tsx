import type { ContentfulStatusCode } from "hono/utils/http-status";
import { Layout } from "../parts/layout.tsx";

export type Problem = {
  readonly status: ContentfulStatusCode;
  readonly title: string;
  readonly happened: string;
  readonly remedy: string;
};

/** What happened and what to do, in the house style. */
export const ProblemPage = (props: { problem: Problem; collectionName: string }) => (
  <Layout title={props.problem.title} section={null} collectionName={props.collectionName}>
    <div class="page page-narrow">
      <header class="page-head">
        <h1>{props.problem.title}</h1>
      </header>
      <p class="lead">{props.problem.happened}</p>
      <p>{props.problem.remedy}</p>
      <p class="actions">
        <a class="button" href="/prints">
          Prints
        </a>
        <a class="button button-quiet" href="/bin">
          Bin
        </a>
      </p>
    </div>
  </Layout>
);
