import { Notice } from "./notice.tsx";

export type ShownProposal = { readonly id: number; readonly captureId: number; readonly proposedName: string; readonly sentence: string };

/** A later capture that the rule would put in the place of a person's choice: one click either way. */
export const Proposed = ({ printId, proposal, from }: { printId: number; proposal: ShownProposal; from?: "choices" }) => (
  <Notice level="notice" title="A later capture is proposed">
    <p>
      <a href={`/captures/${proposal.captureId}`}>{proposal.proposedName}</a> came after this was decided by hand. {proposal.sentence}
    </p>
    <form class="actions" method="post" action={`/prints/${printId}/proposals/${proposal.id}`}>
      {from ? <input type="hidden" name="from" value={from} /> : null}
      <button class="button button-small" type="submit" name="answer" value="accepted">
        Accept it as master
      </button>
      <button class="button button-quiet button-small" type="submit" name="answer" value="declined">
        Decline, keep mine
      </button>
    </form>
  </Notice>
);
