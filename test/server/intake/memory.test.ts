import { execFileSync } from "node:child_process";
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import path from "node:path";
import sharp from "sharp";
import { expect, onTestFinished, test } from "vitest";

const SIDE_PX = 6000;
const DECODED_BYTES = SIDE_PX * SIDE_PX * 3;

/** In a process of its own, since the peak of a process never falls again. */
const PEAK_GROWTH = `
  import { inspect } from "#server/intake/inspect.ts";
  import { readToItsEnd } from "#server/images/decode.ts";
  const before = process.resourceUsage().maxRSS;
  const looked = await inspect(process.argv[1], "a", readToItsEnd);
  const { widthPx, heightPx } = looked.value.picture;
  console.log(JSON.stringify({ grownBytes: (process.resourceUsage().maxRSS - before) * 1024, widthPx, heightPx }));
`;

test("looking at a file before it is kept never holds the whole picture", async () => {
  const folder = mkdtempSync(path.join(tmpdir(), "solander-memory-"));
  onTestFinished(() => rmSync(folder, { recursive: true, force: true }));
  const file = path.join(folder, "a.png");
  await sharp({ create: { width: SIDE_PX, height: SIDE_PX, channels: 3, background: "#a05020" } })
    .png({ compressionLevel: 1 })
    .toFile(file);
  const said = execFileSync(process.execPath, ["--import", "tsx", "--input-type=module", "--eval", PEAK_GROWTH, file], {
    cwd: new URL("../../..", import.meta.url).pathname,
    encoding: "utf8",
  });
  const { grownBytes, ...size } = JSON.parse(said);
  expect(size).toEqual({ widthPx: SIDE_PX, heightPx: SIDE_PX });
  expect(grownBytes).toBeLessThan(DECODED_BYTES / 2);
});
