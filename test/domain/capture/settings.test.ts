import { expect, test } from "vitest";
import { settingsOf } from "#domain/capture/settings.ts";

const exif = {
  Make: "Invented Works",
  Model: "One\0\0",
  LensModel: " 60 mm \u0007 macro ",
  Software: "Plain 1.0",
  ExposureTime: 0.008,
  FNumber: 8,
  ISO: 100,
  FocalLength: 60,
  DateTimeOriginal: "2021:05:06 12:13:14",
  XResolution: 118.11,
  YResolution: 118.11,
  ResolutionUnit: 3,
};

test("EXIF becomes typed settings with units; control characters go, pixels per cm become per inch", () => {
  expect(settingsOf(exif).settings).toEqual({
    capturedAt: "2021-05-06T12:13:14",
    deviceMake: "Invented Works",
    deviceModel: "One",
    lens: "60 mm macro",
    software: "Plain 1.0",
    exposureTimeS: 0.008,
    fNumber: 8,
    isoSpeed: 100,
    focalLengthMm: 60,
    claimedPpiX: expect.closeTo(300, 1),
    claimedPpiY: expect.closeTo(300, 1),
  });
});

test("a time zone is kept where the file gives one, and never invented", () => {
  expect(settingsOf({ ...exif, OffsetTimeOriginal: "+02:00" }).settings.capturedAt).toBe("2021-05-06T12:13:14+02:00");
  expect(settingsOf({ ...exif, OffsetTimeOriginal: "local" }).settings.capturedAt).toBe("2021-05-06T12:13:14");
});

test.each([
  "0000:00:00 00:00:00",
  "2021:02:30 10:00:00",
  "2021:13:01 10:00:00",
  "1970:01:01 00:00:00",
  "yesterday",
  "    :  :     :  :  ",
  20210506,
])("%j is no moment of capture", (DateTimeOriginal) => {
  expect(settingsOf({ DateTimeOriginal }).settings.capturedAt).toBeNull();
});

test("when it was digitised stands in for when it was taken, and XMP for EXIF", () => {
  expect(settingsOf({ CreateDate: "2019:01:02 03:04:05" }).settings.capturedAt).toBe("2019-01-02T03:04:05");
  expect(settingsOf({}, { CreateDate: "2014-09-18T14:29:04.53+03:00", CreatorTool: "Plain 2" }).settings).toMatchObject({
    capturedAt: "2014-09-18T14:29:04+03:00",
    software: "Plain 2",
  });
  expect(settingsOf(exif, { Make: "Somebody else" }).settings.deviceMake).toBe("Invented Works");
});

test("what a stranger's file says wrongly is as if it had not been said", () => {
  const wrong = {
    Make: { toString: "x" },
    Model: ["a"],
    LensModel: "   ",
    Software: "x".repeat(10_000),
    ExposureTime: Number.POSITIVE_INFINITY,
    FNumber: 0,
    ISO: -1,
    FocalLength: "long",
    XResolution: Number.NaN,
    YResolution: 0,
    ResolutionUnit: 2,
  };
  const { settings } = settingsOf(wrong);
  expect(settings.software).toHaveLength(200);
  expect({ ...settings, software: null }).toEqual(Object.fromEntries(Object.keys(settings).map((key) => [key, null])));
});

// CIPA DC-008: ResolutionUnit 1 has no length, and 2, inch, is what holds where nothing is said.
test("a resolution without a length claims nothing, and without a unit it is per inch", () => {
  expect(settingsOf({ XResolution: 300, YResolution: 300, ResolutionUnit: 1 }).settings.claimedPpiX).toBeNull();
  expect(settingsOf({ XResolution: 300, YResolution: 600 }).settings).toMatchObject({ claimedPpiX: 300, claimedPpiY: 600 });
});
