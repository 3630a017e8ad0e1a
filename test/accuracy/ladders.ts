import type { Ladder } from "./ladder.ts";
import { barrelLadder } from "./ladders/barrel.ts";
import { bitDepthLadder, bitDepthUnderCurveLadder } from "./ladders/bit-depth.ts";
import { blurLadder } from "./ladders/blur.ts";
import { castLadder } from "./ladders/cast.ts";
import { clippingLadder, shadowsLadder } from "./ladders/clipping.ts";
import { combLadder } from "./ladders/comb.ts";
import { doubleSaveLadder } from "./ladders/double-save.ts";
import { dustLadder, hairLadder } from "./ladders/dust.ts";
import { evennessLadder } from "./ladders/evenness.ts";
import { exposureLadder } from "./ladders/exposure.ts";
import {
  bowlLadder,
  hillLadder,
  movementAcrossLadder,
  movementDiagonalLadder,
  movementDirectionLadder,
  movementDownLadder,
  tiltCroppedLadder,
  tiltDownLadder,
  tiltLeftLadder,
} from "./ladders/focus.ts";
import { faintWindowLadder, lampLadder, lampOnBorderLadder, veilLadder, windowLadder, windowOverBorderLadder } from "./ladders/glare.ts";
import { groundLadders } from "./ladders/ground.ts";
import { jpegQualityLadder } from "./ladders/jpeg-quality.ts";
import { keystoneLadder } from "./ladders/keystone.ts";
import { marginLadder } from "./ladders/margin.ts";
import { misregistrationLadder } from "./ladders/misregistration.ts";
import { moireLadder } from "./ladders/moire.ts";
import { noiseLadder } from "./ladders/noise.ts";
import { ringsInDetailLadder, ringsLadder } from "./ladders/rings.ts";
import { samplingLadder, scaleLadder } from "./ladders/sampling.ts";
import { sharpeningLadder } from "./ladders/sharpening.ts";
import { skewLadder } from "./ladders/skew.ts";
import { bandingLadder, streaksLadder } from "./ladders/streaks.ts";
import { tonesLadder } from "./ladders/tones.ts";

/** Every ladder that the table of accuracy is made of. */
export const LADDERS: readonly Ladder[] = [
  skewLadder,
  keystoneLadder,
  marginLadder,
  barrelLadder,
  samplingLadder,
  scaleLadder,
  blurLadder,
  sharpeningLadder,
  combLadder,
  clippingLadder,
  shadowsLadder,
  tonesLadder,
  castLadder,
  exposureLadder,
  evennessLadder,
  streaksLadder,
  bandingLadder,
  moireLadder,
  misregistrationLadder,
  noiseLadder,
  bitDepthLadder,
  bitDepthUnderCurveLadder,
  jpegQualityLadder,
  doubleSaveLadder,
  tiltDownLadder,
  tiltLeftLadder,
  tiltCroppedLadder,
  bowlLadder,
  hillLadder,
  movementAcrossLadder,
  movementDownLadder,
  movementDiagonalLadder,
  movementDirectionLadder,
  windowLadder,
  windowOverBorderLadder,
  lampLadder,
  lampOnBorderLadder,
  faintWindowLadder,
  veilLadder,
  ...groundLadders,
  dustLadder,
  hairLadder,
  ringsLadder,
  ringsInDetailLadder,
];
