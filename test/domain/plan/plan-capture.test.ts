import { describe, expect, test } from "vitest";
import { PRESERVATION_MASTER_LIMITS } from "#domain/aim/preservation-master.ts";
import { REPRODUCTION_LIMITS } from "#domain/aim/reproduction.ts";
import { SCREEN_LIMITS } from "#domain/aim/screen.ts";
import { type Arrangement, arrangementInput, typedFromArrangement } from "#domain/plan/arrangement.ts";
import { askedOf } from "#domain/plan/asked.ts";
import type { Job } from "#domain/plan/job.ts";
import { planCapture, type SizePlan } from "#domain/plan/plan-capture.ts";

const CAMERA = { sensorWidthMm: "36", sensorHeightMm: "24", sensorWidthPx: "6000", sensorHeightPx: "4000", focalLengthMm: "60" };
const LAMPS = { lampCount: "2", lampElevationDegrees: "40", lampDistanceMm: "900", lampWidthMm: "150" };

const INSTANT: Job = {
  prints: [{ label: "A1", widthMm: 88, heightMm: 107 }],
  marginMm: 5,
  curlMm: 0,
  asked: askedOf(PRESERVATION_MASTER_LIMITS),
};

const arranged = (typed: Record<string, string>): Arrangement => arrangementInput.parse(typed);
function planOf(typed: Record<string, string>, job: Partial<Job> = {}): SizePlan {
  const [plan] = planCapture(arranged(typed), { ...INSTANT, ...job }).sizes;
  if (!plan) throw new Error("The job has no print.");
  return plan;
}
const about = (plan: SizePlan) => plan.warnings.map((warning) => warning.about);

describe("sampling", () => {
  test("the print and its margin fill the shorter side of the sensor: 98 mm on 24 mm and 4000 px is 1036 ppi", () => {
    const plan = planOf(CAMERA);
    // 4000 px over 98 mm: 4000 / 98 · 25.4
    expect(plan.ppi).toBeCloseTo((4000 / 98) * 25.4, 6);
    expect(plan.reach).toBe("aimed");
    expect(plan.camera?.lensMm).toBeCloseTo(60 * (1 + 98 / 24), 6);
    expect(about(plan)).not.toContain("sampling");
  });

  test("a poster with the same camera falls short, and the remedy names the pixels it would take", () => {
    const plan = planOf(CAMERA, { prints: [{ label: "P", widthMm: 400, heightMm: 500 }] });
    expect(plan.reach).toBe("short");
    const [warning] = plan.warnings.filter(({ about: what }) => what === "sampling");
    expect(warning?.weight).toBe("in-the-way");
    // 510 mm and 410 mm at 600 ppi
    expect(warning?.remedy).toContain(`${Math.ceil((510 / 25.4) * 600)} × ${Math.ceil((410 / 25.4) * 600)} pixels`);
  });

  test("between what must be and what is aimed at it is told as a thing to mind, not as a hindrance", () => {
    const plan = planOf(CAMERA, { prints: [{ label: "B", widthMm: 180, heightMm: 240 }] });
    expect(plan.reach).toBe("least");
    expect(plan.warnings.find(({ about: what }) => what === "sampling")?.weight).toBe("mind");
  });

  test("from too far away the remedy is to bring the lens nearer; from too near, to raise it", () => {
    const far = planOf({ ...CAMERA, lensDistanceMm: "900" });
    expect(far.warnings.find(({ about: what }) => what === "sampling")?.remedy).toMatch(/nearer: at 305 mm it reaches 1036 ppi/);
    const near = planOf({ ...CAMERA, lensDistanceMm: "200" });
    expect(near.camera?.fits).toBe(false);
    expect(near.warnings.find(({ about: what }) => what === "field")?.remedy).toMatch(/at least 305 mm/);
  });

  test("where the lens stands too near for the print, sampling is that of the distance at which it fits", () => {
    const plan = planOf({ ...CAMERA, lensDistanceMm: "200" }, { prints: [{ label: "P", widthMm: 400, heightMm: 500 }] });
    expect(plan.reach).toBe("short");
    // 4000 px over 410 mm
    expect(plan.ppi).toBeCloseTo((4000 / 410) * 25.4, 6);
    expect(about(plan)).toEqual(expect.arrayContaining(["field", "sampling"]));
  });

  test("prints of one size are planned once, lying or standing, the largest first", () => {
    const plan = planCapture(arranged(CAMERA), {
      ...INSTANT,
      prints: [
        { label: "A1", widthMm: 88, heightMm: 107 },
        { label: "A2", widthMm: 107, heightMm: 88 },
        { label: "B1", widthMm: 180, heightMm: 240 },
      ],
    });
    expect(plan.sizes.map(({ size }) => size.prints.map(({ label }) => label))).toEqual([["B1"], ["A1", "A2"]]);
    // 6000 × 4000 px, 3 colours, 2 bytes, three files
    expect(plan.bytes).toBe(3 * 144_000_000);
  });
});

describe("aperture", () => {
  test("a flat print is best served wide open, a curled one by a smaller opening", () => {
    const flat = planOf(CAMERA).camera?.aperture;
    const curled = planOf(CAMERA, { curlMm: 4 }).camera?.aperture;
    expect(flat?.window?.best.fNumber).toBe(2.8);
    expect(curled?.window?.best.fNumber).toBeGreaterThanOrEqual(8);
    // nearly as good, and stopped down, as a real lens wants it
    expect(flat?.used?.fNumber).toBeGreaterThan(2.8);
    expect(flat?.used?.atTheEnds).toBeGreaterThanOrEqual(0.9 * (flat?.window?.best.atTheEnds ?? 1));
  });

  test("f/90 is told to be softened by diffraction, and another aperture is named", () => {
    const plan = planOf({ ...CAMERA, fNumber: "90" }, { curlMm: 2 });
    const warning = plan.warnings.find(({ about: what }) => what === "aperture");
    expect(warning?.text).toContain("diffraction");
    expect(warning?.remedy).toMatch(/Set f\/\d/);
    expect(about(planOf({ ...CAMERA, fNumber: "11" }, { curlMm: 2 }))).not.toContain("aperture");
  });

  test("an aperture that is proposed leaves half the contrast where any does", () => {
    // between 18 and 20 mm of curl the best still leaves half, and nine tenths of it no longer do
    for (const curlMm of [18, 18.5, 19, 19.5]) {
      const aperture = planOf(CAMERA, { curlMm }).camera?.aperture;
      const best = aperture?.window?.best.atTheEnds ?? 0;
      expect(aperture?.used?.atTheEnds ?? 0).toBeGreaterThanOrEqual(Math.min(0.5, best));
    }
  });

  test("wide open over a curl, what is out of the plane of focus is told to be soft", () => {
    const warning = planOf({ ...CAMERA, fNumber: "2.8" }, { curlMm: 8 }).warnings.find(({ about: what }) => what === "aperture");
    expect(warning?.text).toContain("out of the plane of focus");
  });

  test("a curl that no aperture holds is not blamed on the aperture, and nobody is told to press the print flat", () => {
    const warning = planOf(CAMERA, { curlMm: 30 }).warnings.find(({ about: what }) => what === "aperture");
    expect(warning?.text).toContain("No aperture");
    expect(warning?.remedy).toContain("conservator");
  });

  test("depth of field is 2 N c (1 + m) / m², with a circle of two samples of the aimed sampling", () => {
    const m = 24 / 98;
    // two of 600 samples an inch, as large as they are drawn on the sensor
    const circleMm = (2 * 25.4 * m) / 600;
    expect(planOf({ ...CAMERA, fNumber: "8" }).camera?.aperture.depthOfFieldMm).toBeCloseTo((2 * 8 * circleMm * (1 + m)) / m ** 2, 9);
  });

  test("a pupil magnification counts in depth of field, effective aperture and light: P = 0.5 beside P = 1", () => {
    const m = 24 / 98;
    const of = (pupilMagnification: string) => planOf({ ...CAMERA, fNumber: "8", pupilMagnification, lux: "2560" }).camera;
    const [half, one] = [of("0.5"), of("1")];
    // N (1 + m / P), and 1/m + 1/P in the depth
    expect(half?.aperture.effectiveFNumber).toBeCloseTo(8 * (1 + 2 * m), 9);
    expect(one?.aperture.effectiveFNumber).toBeCloseTo(8 * (1 + m), 9);
    expect((half?.aperture.depthOfFieldMm ?? 0) / (one?.aperture.depthOfFieldMm ?? 1)).toBeCloseTo((1 / m + 2) / (1 / m + 1), 9);
    expect(half?.exposure?.lossStops).toBeCloseTo(2 * Math.log2(1 + 2 * m), 9);
  });

  test("both ends of the window are told: what is wider blurs the ends of the depth, what is smaller is taken by diffraction", () => {
    const aperture = planOf(CAMERA, { curlMm: 8 }).camera?.aperture;
    const keeping = aperture?.responses.filter(({ atTheEnds }) => atTheEnds >= 0.5).map(({ fNumber }) => fNumber) ?? [];
    expect(aperture?.window?.half).toEqual({ from: keeping[0], to: keeping.at(-1) });
    expect(keeping[0]).toBeGreaterThan(2.8);
    expect(keeping.at(-1)).toBeLessThan(32);
    // the small end of a flat print is set by diffraction alone, by hand at 4.724 cy/mm and m = 24 / 98: f/29 leaves 51 %, f/32 46 %
    const m = 24 / 98;
    const left = (fNumber: number) => {
      const s = (4.7244 * 0.00055 * fNumber * (1 + m)) / m;
      const pixel = (Math.PI * 4.7244 * 24) / (4000 * m);
      return ((2 / Math.PI) * (Math.acos(s) - s * Math.sqrt(1 - s * s)) * Math.sin(pixel)) / pixel;
    };
    expect(left(29)).toBeGreaterThan(0.5);
    expect(left(32)).toBeLessThan(0.5);
    expect(planOf(CAMERA).camera?.aperture.window?.half).toEqual({ from: 2.8, to: 29 });
    expect(planOf(CAMERA, { curlMm: 30 }).camera?.aperture.window?.half ?? null).toBeNull();
  });

  test("the plane of focus bending at the corners counts as depth, as curl does", () => {
    expect(planOf({ ...CAMERA, fieldCurvatureMm: "1.5" }, { curlMm: 2 }).camera?.aperture.depthMm).toBe(3.5);
  });
});

describe("light", () => {
  test("lamps at 40° and 900 mm are clear of a flat instant print; the same lamps at 75° are not, and the remedy is clear", () => {
    expect(planOf({ ...CAMERA, ...LAMPS }).camera?.lighting?.clearanceMm).toBeGreaterThan(0);
    const steep = planOf({ ...CAMERA, ...LAMPS, lampElevationDegrees: "75" });
    const warning = steep.warnings.find(({ about: what }) => what === "lamps");
    const degrees = Number(/lower them to (\d+)°/.exec(warning?.remedy ?? "")?.[1]);
    expect(planOf({ ...CAMERA, ...LAMPS, lampElevationDegrees: String(degrees) }).camera?.lighting?.clearanceMm).toBeGreaterThanOrEqual(0);
    expect(planOf({ ...CAMERA, ...LAMPS, lampElevationDegrees: String(degrees + 1) }).camera?.lighting?.clearanceMm).toBeLessThan(0);
  });

  test("a curl turns the mirrored ray, so that lamps have less room", () => {
    const room = (curlMm: number) => planOf({ ...CAMERA, ...LAMPS }, { curlMm }).camera?.lighting?.clearanceMm ?? 0;
    expect(room(3)).toBeLessThan(room(0));
  });

  test("one lamp close by lights unevenly, two opposite each other from farther away evenly", () => {
    const near = planOf({ ...CAMERA, ...LAMPS, lampCount: "1", lampDistanceMm: "400" });
    expect(near.warnings.find(({ about: what }) => what === "evenness")?.remedy).toContain("second one opposite");
    expect(about(planOf({ ...CAMERA, ...LAMPS, focalLengthMm: "100" }))).not.toContain("evenness");
  });

  test("evenness is judged as the standard puts it, by standard deviation over mean, not by the darkest corner", () => {
    const plan = planOf({ ...CAMERA, ...LAMPS, lampDistanceMm: "700" });
    const { both, lightnessSpreadPercent } = plan.camera?.lighting?.lossPercent ?? { both: 0, lightnessSpreadPercent: 9 };
    expect(both).toBeGreaterThan(3);
    expect(lightnessSpreadPercent).toBeLessThan(3);
    expect(about(plan)).not.toContain("evenness");
  });

  test("exposure counts the light that drawing large takes away", () => {
    const plan = planOf({ ...CAMERA, fNumber: "8", lux: "2560", sensitivityIso: "100" });
    const m = 24 / 98;
    // EV 10: N² (1 + m)² / 2^10
    expect(plan.camera?.exposure?.seconds).toBeCloseTo((64 * (1 + m) ** 2) / 1024, 9);
    expect(plan.camera?.exposure?.restSeconds).toBe(2);
  });

  test("an exposure shorter than the pulse of mains lamps is told, a longer one is not", () => {
    expect(about(planOf({ ...CAMERA, fNumber: "4", lux: "5000", sensitivityIso: "800" }))).toContain("exposure");
    expect(about(planOf({ ...CAMERA, fNumber: "8", lux: "500", sensitivityIso: "100" }))).not.toContain("exposure");
  });

  test("light is written in lux or as exposure value, never as both: EV 10 at ISO 100 is 2560 lx (ISO 2720, flat receptor)", () => {
    const seconds = (light: Record<string, string>) => planOf({ ...CAMERA, fNumber: "8", ...light }).camera?.exposure?.seconds;
    const m = 24 / 98;
    expect(seconds({ ev100: "10" })).toBeCloseTo((64 * (1 + m) ** 2) / 1024, 9);
    expect(seconds({ lux: "2560" })).toBeCloseTo((64 * (1 + m) ** 2) / 1024, 9);
    expect(planOf({ ...CAMERA, ev100: "9.5" }).camera?.exposure?.ev100).toBe(9.5);
    const both = arrangementInput.safeParse({ ...CAMERA, lux: "2560", ev100: "10" });
    expect(both.error?.issues.map(({ path }) => path[0])).toEqual(["ev100"]);
  });

  test("of coated glass one layer is worked out and said to be one; what the maker says of the pane goes before it", () => {
    const told = (typed: Record<string, string>) =>
      planOf({ ...CAMERA, ...typed }).warnings.find(({ about: what }) => what === "glass")?.text;
    // ((1.52 − 1.38²) / (1.52 + 1.38²))² = 1.26 % a face, 2 R / (1 + R) = 2.5 % a pane
    expect(told({ glass: "coated" })).toMatch(/one anti-reflection layer adds 2\.5 % .* several layers throw back less/);
    // L* of Y = 0.006 is 903.3 · 0.006 = 5.4 (CIE 15)
    expect(told({ glass: "coated", glassPercent: "0,6" })).toMatch(/adds 0\.6 % .* black is lifted to L\* 5\.$/);
    const none = arrangementInput.safeParse({ ...CAMERA, glassPercent: "0.6" });
    expect(none.error?.issues.map(({ path, message }) => `${String(path[0])}: ${message}`)).toEqual([
      "glass: Without glass nothing is thrown back: choose the glass, or empty what it throws back.",
    ]);
  });

  test("glass is told with the share it adds, and with who must not lie under it", () => {
    const warning = planOf({ ...CAMERA, glass: "plain" }).warnings.find(({ about: what }) => what === "glass");
    expect(warning?.text).toContain("8.2 %");
    expect(warning?.remedy).toContain("leaking");
    expect(about(planOf(CAMERA))).not.toContain("glass");
  });
});

describe("what each purpose asks", () => {
  const LIMITS = { preservation: PRESERVATION_MASTER_LIMITS, reproduction: REPRODUCTION_LIMITS, screen: SCREEN_LIMITS };
  const weights = (purpose: keyof typeof LIMITS, typed: Record<string, string>, what: string) =>
    planOf({ ...CAMERA, ...typed }, { asked: askedOf(LIMITS[purpose]) }).warnings.flatMap(({ about: of, weight }) =>
      of === what ? [weight] : [],
    );
  const ONE_LAMP = { ...LAMPS, lampCount: "1", lampDistanceMm: "500" };

  test("light that varies by more than 3 % stands in the way of a preservation master alone: the other aims require no evenness", () => {
    const spread = planOf({ ...CAMERA, ...ONE_LAMP }).camera?.lighting?.lossPercent.lightnessSpreadPercent;
    expect(spread).toBeGreaterThan(3);
    expect(spread).toBeLessThan(12);
    expect(weights("preservation", ONE_LAMP, "evenness")).toEqual(["in-the-way"]);
    expect(weights("reproduction", ONE_LAMP, "evenness")).toEqual([]);
    expect(weights("screen", ONE_LAMP, "evenness")).toEqual([]);
  });

  test("where evenness is not required but counts for nothing any more, that is a thing to mind", () => {
    const near = { ...ONE_LAMP, lampDistanceMm: "150", lampElevationDegrees: "30" };
    expect(planOf({ ...CAMERA, ...near }).camera?.lighting?.lossPercent.lightnessSpreadPercent).toBeGreaterThan(15);
    expect(weights("screen", near, "evenness")).toEqual(["mind"]);
  });

  test("the contrast asked for is that of the purpose: 40 % of half of 600 ppi required, 3.2 and 2 cy/mm aimed at", () => {
    const at = (purpose: keyof typeof LIMITS) => planOf(CAMERA, { asked: askedOf(LIMITS[purpose]) }).camera?.aperture.atCyPerMm;
    // 0.4 · 600 / 25.4 / 2
    expect(at("preservation")).toBeCloseTo(4.724, 3);
    expect(at("reproduction")).toBe(3.2);
    expect(at("screen")).toBe(2);
    expect(weights("preservation", { fNumber: "90" }, "aperture")).toEqual(["in-the-way"]);
    expect(weights("reproduction", { fNumber: "90" }, "aperture")).toEqual(["mind"]);
    expect(weights("screen", { fNumber: "90" }, "aperture")).toEqual(["mind"]);
  });

  test("8 bits are enough for a preservation master and less than aimed at; a purpose that requires 16 is not reached by them", () => {
    expect(weights("preservation", { bitsPerSample: "8" }, "file")).toEqual(["mind"]);
    expect(weights("preservation", { bitsPerSample: "16" }, "file")).toEqual([]);
    expect(weights("screen", { bitsPerSample: "8" }, "file")).toEqual([]);
    const deep = PRESERVATION_MASTER_LIMITS.map((limit) =>
      limit.measure === "effectiveBitDepth" ? { ...limit, requiredAtLeast: 16 } : limit,
    );
    for (const typed of [CAMERA, { scannerPpi: "600" }]) {
      const { warnings } = planOf({ ...typed, bitsPerSample: "8" }, { asked: askedOf(deep) });
      expect(warnings.find(({ about: what }) => what === "file")).toMatchObject({ weight: "in-the-way" });
      expect(warnings.find(({ about: what }) => what === "file")?.text).toContain(
        "8 bits a colour are planned, where at least 16 are asked",
      );
    }
  });

  test("a JPEG stands in the way of a preservation master, counts less for a reproduction, and is as good for the screen", () => {
    const jpeg = { fileForm: "lossy" };
    expect(weights("preservation", jpeg, "file")).toEqual(["mind", "in-the-way"]);
    expect(weights("reproduction", jpeg, "file")).toEqual(["mind", "mind"]);
    expect(weights("screen", jpeg, "file")).toEqual([]);
    expect(arranged({ ...CAMERA, ...jpeg }).bitsPerSample).toBe(8);
    const deep = arrangementInput.safeParse({ ...CAMERA, ...jpeg, bitsPerSample: "16" });
    expect(deep.error?.issues.map(({ path }) => path[0])).toEqual(["bitsPerSample"]);
  });

  test("an aim that says nothing of sampling, light or file asks nothing of them", () => {
    expect(askedOf([])).toMatchObject({ leastPpi: 0, evenness: { mostPercent: null, worthlessPercent: null }, bits: null, lossless: null });
    const { warnings } = planOf({ ...CAMERA, ...ONE_LAMP, bitsPerSample: "8", fileForm: "lossy" }, { asked: askedOf([]) });
    expect(warnings.filter(({ weight }) => weight === "in-the-way")).toEqual([]);
  });
});

describe("scanner", () => {
  test("its setting is the sampling; the file holds print and margin", () => {
    const plan = planOf({ scannerPpi: "600", bedWidthMm: "216", bedHeightMm: "297", bitsPerSample: "8" });
    expect(plan.ppi).toBe(600);
    expect(about(plan)).toEqual(["file"]);
    expect(planOf({ scannerPpi: "600", bedWidthMm: "216", bedHeightMm: "297" }).warnings).toEqual([]);
    expect(plan.bytes).toBe(Math.ceil((98 / 25.4) * 600) * Math.ceil((117 / 25.4) * 600) * 3);
  });

  test("300 ppi falls short, a print larger than the bed does not fit, a curled one asks for a trial", () => {
    const plan = planOf(
      { scannerPpi: "300", bedWidthMm: "216", bedHeightMm: "297" },
      { prints: [{ label: "C", widthMm: 280, heightMm: 350 }], curlMm: 3 },
    );
    expect(about(plan)).toEqual(["field", "sampling", "aperture"]);
  });
});

describe("figures as typed", () => {
  const refusals = (typed: Record<string, string>) =>
    arrangementInput.safeParse(typed).error?.issues.map((issue) => String(issue.path[0])) ?? [];

  test("a camera needs its sensor, pixels and focal length; each missing one is named", () => {
    expect(refusals({ sensorWidthMm: "36", sensorHeightMm: "24" })).toEqual(["sensorWidthPx", "sensorHeightPx", "focalLengthMm"]);
  });

  test("neither or both of camera and scanner is refused", () => {
    expect(refusals({})).toEqual(["sensorWidthMm"]);
    expect(refusals({ ...CAMERA, scannerPpi: "600" })).toEqual(["scannerPpi"]);
  });

  test("half-said lamps are refused, and a lens nearer than its focal length", () => {
    expect(refusals({ ...CAMERA, lampCount: "2" })).toEqual(["lampElevationDegrees", "lampDistanceMm", "lampWidthMm"]);
    expect(refusals({ ...CAMERA, lensDistanceMm: "60" })).toEqual(["lensDistanceMm"]);
  });

  test("decimal commas and units are taken, and figures come back as they were typed", () => {
    const arrangement = arranged({
      ...CAMERA,
      sensorWidthMm: "35,9 mm",
      ...LAMPS,
      ev100: "9,5",
      glass: "coated",
      glassPercent: "0.7 %",
      fileForm: "lossy",
    });
    expect(arrangement.camera?.sensor.widthMm).toBe(35.9);
    expect(arranged(typedFromArrangement(arrangement))).toEqual(arrangement);
  });

  test("figures kept before exposure value, maker's share and file were asked are those of a file without loss", () => {
    const { glassPercent: _, fileForm: __, ...kept } = arranged({ ...CAMERA, lux: "2560", glass: "plain" });
    const { ev100: ___, ...light } = kept.light;
    const old: Arrangement = { ...kept, light };
    const [plan] = planCapture(old, INSTANT).sizes;
    expect(plan?.camera?.exposure?.ev100).toBeCloseTo(10, 9);
    expect(plan?.warnings.map((warning) => warning.about)).toEqual(["glass"]);
    expect(typedFromArrangement(old)).not.toHaveProperty("fileForm");
  });
});
