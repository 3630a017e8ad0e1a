/** What keeps a capture from being measured, in words. */
export type NotMeasured = { readonly words: string; readonly isFailed: boolean };

/**
 * Says why a capture has no new measures and, where it failed, offers to try again.
 * @param from the list it stands in, to lead back to; left out on the capture's own page
 */
export const NotMeasuredNote = ({ captureId, why, from }: { captureId: number; why: NotMeasured; from?: "tray" | "work" }) => (
  <div class="not-measured">
    <p>{why.words}</p>
    {why.isFailed ? (
      <form method="post" action={`/captures/${captureId}/measure`}>
        {from ? <input type="hidden" name="from" value={from} /> : null}
        <button class="button button-quiet button-small" type="submit">
          Measure again
        </button>
      </form>
    ) : null}
  </div>
);
