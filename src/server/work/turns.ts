/** Does one thing after another, whoever asks, where doing many at once would fill the memory. One that fails keeps none back. */
export function turns(): <T>(make: () => Promise<T>) => Promise<T> {
  let turn: Promise<unknown> = Promise.resolve();
  return (make) => {
    const making = turn.then(make);
    turn = making.catch(() => {});
    return making;
  };
}
