/** File names are long and have no blanks: they may break after a stroke, an underscore or a point. */
export const FileName = ({ name }: { name: string }) => (
  <>
    {name.split(/(?<=[_.-])(?=.)/).map((piece, index) => (
      <>
        {index > 0 ? <wbr /> : null}
        {piece}
      </>
    ))}
  </>
);
