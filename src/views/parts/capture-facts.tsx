import type { Child } from "hono/jsx";
import type { Original } from "#domain/capture/capture.ts";
import { bytesInWords } from "../format/bytes.ts";
import { exposureInWords } from "../format/exposure-time.ts";
import type { ShownCapture } from "./capture-card.tsx";
import { FIXITY_WORDS, type ShownFixity } from "./fixity-words.ts";
import { Moment } from "./moment.tsx";

/** How the picture was made, as far as the file says. */
export function SettingsFacts({ original, saidDay }: { original: Original; saidDay: string | null }) {
  const device = deviceInWords(original);
  const facts: [string, Child | null][] = [
    ["Captured", original.capturedAt === null ? null : <CameraTime at={original.capturedAt} isSaid={saidDay !== null} />],
    ["Device", device],
    ["Lens", original.lens],
    ["Exposure time", original.exposureTimeS === null ? null : exposureInWords(original.exposureTimeS)],
    ["Aperture", original.fNumber === null ? null : `f/${round(original.fNumber)}`],
    ["ISO speed", original.isoSpeed === null ? null : String(round(original.isoSpeed))],
    ["Focal length", original.focalLengthMm === null ? null : `${round(original.focalLengthMm)} mm`],
    ["Software", original.software],
    ["Claimed by the file", original.claimedPpiX === null ? null : ppiInWords(original.claimedPpiX, original.claimedPpiY)],
  ];
  const told = facts.filter(([, value]) => value !== null);
  return (
    <>
      {told.length === 0 ? <p class="soft">The file says nothing of how it was made.</p> : <Facts facts={told} />}
      {original.metadataState === "unreadable" ? (
        <p class="notice notice-caution">
          What the file says of itself could not be read{original.metadataNote ? `: ${original.metadataNote}` : "."}
        </p>
      ) : null}
    </>
  );
}

/** What the file is, and the proof that it still is what came. */
export function FileFacts({ capture, fixity }: { capture: ShownCapture; fixity: ShownFixity | null }) {
  const { original, region } = capture;
  return (
    <Facts
      facts={[
        ["File name", original.originalName],
        [
          "Kind",
          `${original.kind.toUpperCase()}, ${original.bitsPerChannel} bits in ${original.channels} ${original.channels === 1 ? "channel" : "channels"}`,
        ],
        ["Pixels", `${original.widthPx} × ${original.heightPx}`],
        ...(region
          ? ([["This part", `${region.width} × ${region.height}, from ${region.left} across and ${region.top} down`]] as [string, Child][])
          : []),
        [
          "Colour space",
          original.profileName ? `${original.colourSpace}, profile “${original.profileName}”` : `${original.colourSpace}, no profile`,
        ],
        ["Size", bytesInWords(original.bytes)],
        ["Taken in", <Moment at={capture.createdAt} />],
        ["SHA-256", <code class="hash">{original.sha256}</code>],
        ["Fixity", fixity ? <Fixity fixity={fixity} /> : "Hashed when it was taken in; not checked since"],
      ]}
    />
  );
}

const Fixity = ({ fixity }: { fixity: ShownFixity }) => (
  <span class={fixity.outcome === "unchanged" ? undefined : "mark-none"}>
    {FIXITY_WORDS[fixity.outcome]}, <Moment at={fixity.checkedAt} />
  </span>
);

const Facts = ({ facts }: { facts: readonly [string, Child | null][] }) => (
  <dl class="facts">
    {facts.map(([name, value]) => (
      <>
        <dt>{name}</dt>
        <dd>{value}</dd>
      </>
    ))}
  </dl>
);

/** Many devices write their maker into the model again. */
function deviceInWords({ deviceMake, deviceModel }: Original): string | null {
  if (deviceMake === null || deviceModel === null) return deviceModel ?? deviceMake;
  return deviceModel.toLowerCase().startsWith(deviceMake.toLowerCase()) ? deviceModel : `${deviceMake} ${deviceModel}`;
}

/** The device's own clock: files seldom say which zone it was set to. */
const CameraTime = ({ at, isSaid }: { at: string; isSaid: boolean }) => (
  <>
    <time datetime={at}>{at.replace("T", " ").replace(/(:\d\d)\.\d+/, "$1")}</time>
    {isSaid ? ", as a person wrote" : ""}
  </>
);

const ppiInWords = (x: number, y: number | null) => (y === null || x === y ? `${round(x)} ppi` : `${round(x)} × ${round(y)} ppi`);

const round = (value: number) => Number(value.toPrecision(3));
