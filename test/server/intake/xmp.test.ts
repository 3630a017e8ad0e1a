import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import path from "node:path";
import sharp, { type Sharp } from "sharp";
import { expect, onTestFinished, test } from "vitest";
import { readToItsEnd } from "#server/images/decode.ts";
import { inspect } from "#server/intake/inspect.ts";

const packet = (attributes: string) =>
  `<x:xmpmeta xmlns:x="adobe:ns:meta/"><rdf:RDF xmlns:rdf="http://www.w3.org/1999/02/22-rdf-syntax-ns#"><rdf:Description rdf:about=""
    xmlns:exif="http://ns.adobe.com/exif/1.0/" xmlns:tiff="http://ns.adobe.com/tiff/1.0/" xmlns:xmp="http://ns.adobe.com/xap/1.0/"
    xmlns:aux="http://ns.adobe.com/exif/1.0/aux/" ${attributes}>
    <exif:ISOSpeedRatings><rdf:Seq><rdf:li>200</rdf:li></rdf:Seq></exif:ISOSpeedRatings></rdf:Description></rdf:RDF></x:xmpmeta>`;

const WHOLE = `exif:ExposureTime="1/125" exif:FNumber="56/10" exif:FocalLength="60/1" exif:DateTimeOriginal="2021-05-06T12:13:14+02:00"
  tiff:XResolution="600/1" tiff:YResolution="600/1" tiff:ResolutionUnit="2" xmp:CreatorTool="Plain tool 3" aux:Lens="60 mm macro"`;

const SAID = {
  capturedAt: "2021-05-06T12:13:14+02:00",
  lens: "60 mm macro",
  software: "Plain tool 3",
  exposureTimeS: 0.008,
  fNumber: 5.6,
  isoSpeed: 200,
  focalLengthMm: 60,
  metadataState: "read",
};

type Format = "jpeg" | "tiff" | "png" | "webp" | "avif";

async function facts(format: Format, xmp: string, change: (image: Sharp) => Sharp = (image) => image) {
  const folder = mkdtempSync(path.join(tmpdir(), "solander-xmp-"));
  onTestFinished(() => rmSync(folder, { recursive: true, force: true }));
  const file = path.join(folder, "file");
  const plain = sharp({ create: { width: 20, height: 10, channels: 3, background: { r: 90, g: 90, b: 90 } } });
  await change(plain.withXmp(xmp)).toFormat(format).toFile(file);
  const looked = await inspect(file, "file", readToItsEnd);
  if (!looked.ok) throw new Error(JSON.stringify(looked.refusals));
  return looked.value.facts;
}

test.each(["jpeg", "tiff", "png", "webp", "avif"] as const)("XMP says how a %s was made where no EXIF does", async (format) => {
  expect(await facts(format, packet(WHOLE))).toMatchObject(SAID);
});

test("EXIF wins over XMP, value by value", async () => {
  const read = await facts("jpeg", packet(WHOLE), (image) =>
    image.withExifMerge({ IFD0: { Software: "From EXIF" }, IFD2: { FNumber: "8/1" } }),
  );
  expect(read).toMatchObject({ ...SAID, software: "From EXIF", fNumber: 8 });
});

test("pixels per inch come from XMP only where the file's own head says none", async () => {
  const claims = 'tiff:XResolution="300/1" tiff:YResolution="300/1" tiff:ResolutionUnit="3"';
  expect((await facts("webp", packet(claims))).claimedPpiX).toBeCloseTo(762, 6);
  expect((await facts("png", packet(claims), (image) => image.withMetadata({ density: 400 }))).claimedPpiX).toBeCloseTo(400, 1);
});

test("what XMP says wrongly is as if it had not been said", async () => {
  const wrong = `exif:ExposureTime="1/0" exif:FNumber="-8" exif:FocalLength="sixty" exif:DateTimeOriginal="2021-02-30T00:00:00"
    tiff:XResolution="1/1000" tiff:YResolution="600" xmp:CreatorTool="${"x".repeat(5000)}"`;
  const read = await facts("webp", packet(wrong));
  expect(read).toMatchObject({ exposureTimeS: null, fNumber: null, focalLengthMm: null, capturedAt: null, claimedPpiX: null });
  expect(read.software).toHaveLength(200);
});

test("a packet too long for a segment, or none of XML at all, keeps no file out", async () => {
  expect(await facts("webp", packet(`${WHOLE} xmp:Label="${"y".repeat(70_000)}"`))).toMatchObject({ lens: null, metadataState: "none" });
  expect(await facts("png", "<x:xmpmeta <<< not XML")).toMatchObject({ lens: null });
});
