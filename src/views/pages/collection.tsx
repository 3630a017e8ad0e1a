import { type FormState, TextField } from "../parts/field.tsx";
import { Layout } from "../parts/layout.tsx";
import { DoneNotice } from "../parts/notice.tsx";
import { RefusalSummary } from "../parts/refusal-summary.tsx";

/** The collection's own name, and how its next object number is made. */
export const CollectionPage = (props: { collectionName: string; form: FormState; nextNumber: string; done?: string }) => (
  <Layout title="This collection" section={null} collectionName={props.collectionName}>
    <div class="page page-narrow">
      <header class="page-head">
        <h1>This collection</h1>
      </header>
      <DoneNotice done={props.done} />
      <form class="card" method="post" action="/collection" novalidate>
        <RefusalSummary refusals={props.form.refusals} labels={COLLECTION_LABELS} />
        <TextField
          form={props.form}
          name="name"
          label="Name"
          isRequired
          most={120}
          hint="Stands at the top of every page and on every list"
        />
        <TextField
          form={props.form}
          name="objectNumberPattern"
          label="Pattern of object numbers"
          isRequired
          most={100}
          hint={
            <>
              Only proposes the next number; any other may be written. <code>{"{year}"}</code> is this year, <code>{"{item:3}"}</code> a
              running number of three digits, <code>{"{lot:3}"}</code> the number of an accession. <code>{"{year}.{lot:3}.{item:2}"}</code>{" "}
              makes 1978.004.12.
            </>
          }
        />
        {props.nextNumber === "" ? null : (
          <p>
            The next number it proposes: <span class="object-number">{props.nextNumber}</span>
          </p>
        )}
        <button class="button" type="submit">
          Save
        </button>
      </form>
    </div>
  </Layout>
);

const COLLECTION_LABELS: Readonly<Record<string, string>> = { name: "Name", objectNumberPattern: "Pattern of object numbers" };
