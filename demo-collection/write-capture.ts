import sharp, { type Exif, type Sharp } from "sharp";
import type { Codes } from "./capture-model/sensor.ts";
import type { Output } from "./plan/planned-capture.ts";

const DEVICES: Readonly<Record<Output["device"], { make: string; model: string; lens: string | null }>> = {
  phone: { make: "Phone camera", model: "Phone camera A", lens: "Phone camera A main lens 5.4 mm" },
  "sheet-fed": { make: "Sheet-fed scanner", model: "Sheet-fed scanner", lens: null },
  flatbed: { make: "Flatbed scanner", model: "Flatbed scanner", lens: null },
  "copy camera": { make: "Copy camera", model: "Copy camera", lens: "60 mm macro lens" },
};

/** Turns a capture into the bytes of a file as its device would have written them, EXIF included. TIFF carries its resolution only. */
export async function writeCapture(codes: Codes, output: Output, takenAt: string): Promise<Buffer> {
  const { widthPx: width, heightPx: height } = codes;
  const wide = codes.data instanceof Uint16Array;
  const raw = output.grey ? greenOf(codes.data) : codes.data;
  let image = sharp(raw, { raw: { width, height, channels: output.grey ? 1 : 3 } });
  if (wide) image = image.toColourspace(output.grey ? "grey16" : "rgb16");
  else if (output.grey) image = image.toColourspace("b-w");
  if (output.lying) image = image.rotate(270).withMetadata({ orientation: 6 });
  image = image.withDensity(output.claimedPpi);
  // a grey file stays without a profile: sharp would spread it to three channels
  if (!output.grey) image = image.withIccProfile("srgb");
  if (output.kind !== "tiff") image = image.withExifMerge(exif(output, takenAt));
  return encoded(image, output).toBuffer();
}

/** A camera file of a black-and-white print, developed to one channel: green carries the least noise. */
function greenOf(rgb: Uint8Array | Uint16Array): Uint8Array | Uint16Array {
  const grey = rgb instanceof Uint8Array ? new Uint8Array(rgb.length / 3) : new Uint16Array(rgb.length / 3);
  for (let i = 0; i < grey.length; i++) grey[i] = rgb[i * 3 + 1] as number;
  return grey;
}

function encoded(image: Sharp, output: Output): Sharp {
  if (output.kind === "jpeg") return image.jpeg({ quality: output.quality ?? 85, chromaSubsampling: "4:2:0", optimiseCoding: true });
  if (output.kind === "png") return image.png({ compressionLevel: 9, adaptiveFiltering: true, palette: false });
  return image.tiff({ compression: "deflate", predictor: "horizontal" });
}

function exif(output: Output, takenAt: string): Exif {
  const device = DEVICES[output.device];
  const moment = takenAt.replaceAll("-", ":").replace("T", " ");
  const present = Object.entries({
    DateTimeOriginal: moment,
    ExposureTime: output.exposureTime,
    FNumber: output.fNumber,
    ISOSpeedRatings: output.iso,
    FocalLength: output.focalLength,
    FocalLengthIn35mmFilm: output.focalLength35,
    LensModel: device.lens,
    // EXIF 2.3: 3 is a digital still camera; sharp cannot write the 2 of a scanner, so scanners say nothing
    FileSource: output.device === "phone" || output.device === "copy camera" ? "3" : null,
    ColorSpace: output.grey ? null : "1",
  }).flatMap(([name, value]) => (value ? [[name, value] as const] : []));
  return {
    IFD0: { Make: device.make, Model: device.model, DateTime: moment },
    IFD2: Object.fromEntries(present),
  };
}
