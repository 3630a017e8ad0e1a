import { FileName } from "./file-name.tsx";
import { FIXITY_WORDS, type ShownFixity } from "./fixity-words.ts";
import { Notice } from "./notice.tsx";

export type DamagedCapture = Pick<ShownFixity, "outcome"> & { readonly id: number; readonly name: string };

/** Says of captures that their files are not what was taken in; nothing measured from them counts meanwhile. */
export const DamagedFiles = ({ captures }: { captures: readonly DamagedCapture[] }) => (
  <Notice level="warning" title={captures.length === 1 ? "A file is damaged" : "Files are damaged"}>
    <ul>
      {captures.map(({ id, name, outcome }) => (
        <li>
          <a href={`/captures/${id}`}>
            <FileName name={name} />
          </a>
          : {FIXITY_WORDS[outcome]}.
        </li>
      ))}
    </ul>
    <p>
      What was measured from it no longer counts, and the rule does not choose it as a master.{" "}
      <a href="/fixity">The last check of all files</a>
    </p>
  </Notice>
);
