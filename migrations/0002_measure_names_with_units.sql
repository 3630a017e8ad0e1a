UPDATE `measures` SET `name` = CASE `name`
  WHEN 'sides-seen' THEN 'sidesSeen'
  WHEN 'skew' THEN 'skewDegrees'
  WHEN 'keystone' THEN 'keystonePercent'
  WHEN 'sampling' THEN 'samplingPpi'
  WHEN 'scale-error' THEN 'scaleErrorPercent'
  WHEN 'sfr50' THEN 'sfr50CyPerMm'
  WHEN 'sfr10' THEN 'sfr10CyPerMm'
  WHEN 'sampling-efficiency' THEN 'samplingEfficiencyPercent'
  WHEN 'sharpening' THEN 'sharpeningOvershootPercent'
  WHEN 'clipped-highlights' THEN 'clippedHighlightsPercent'
  WHEN 'clipped-shadows' THEN 'clippedShadowsPercent'
  WHEN 'border-glare' THEN 'borderGlarePercent'
  WHEN 'possible-glare' THEN 'glareAreaPercent'
  WHEN 'glare' THEN 'glareAreaPercent'
  WHEN 'border-evenness' THEN 'borderLightnessSpreadPercent'
  WHEN 'border-cast' THEN 'borderCastChroma'
  WHEN 'noise' THEN 'noiseDeltaL'
  WHEN 'bit-depth' THEN 'effectiveBitDepth'
  WHEN 'jpeg-quality' THEN 'jpegQuality'
  WHEN 'tone-response' THEN 'toneResponseDeltaL'
  WHEN 'white-balance' THEN 'whiteBalanceDeltaAb'
  WHEN 'lightness-uniformity' THEN 'lightnessUniformityPercent'
  WHEN 'colour-accuracy-mean' THEN 'colourAccuracyMeanDeltaE'
  WHEN 'colour-accuracy-90th' THEN 'colourAccuracy90thDeltaE'
  WHEN 'colour-accuracy-maximum' THEN 'colourAccuracyMaximumDeltaE'
  WHEN 'channel-misregistration' THEN 'targetMisregistrationPx'
  WHEN 'target-sfr10-efficiency' THEN 'targetSfr10EfficiencyPercent'
  WHEN 'target-sfr50-share' THEN 'targetSfr50SharePercent'
  WHEN 'target-sharpening' THEN 'targetPeakSfr'
  WHEN 'target-noise' THEN 'targetNoiseDeltaL'
  WHEN 'reproduction-scale' THEN 'reproductionScalePercent'
END WHERE `name` IN ('sides-seen', 'skew', 'keystone', 'sampling', 'scale-error', 'sfr50', 'sfr10', 'sampling-efficiency', 'sharpening', 'clipped-highlights', 'clipped-shadows', 'border-glare', 'possible-glare', 'glare', 'border-evenness', 'border-cast', 'noise', 'bit-depth', 'jpeg-quality', 'tone-response', 'white-balance', 'lightness-uniformity', 'colour-accuracy-mean', 'colour-accuracy-90th', 'colour-accuracy-maximum', 'channel-misregistration', 'target-sfr10-efficiency', 'target-sfr50-share', 'target-sharpening', 'target-noise', 'reproduction-scale');
--> statement-breakpoint
UPDATE `aim_limits` SET `measure` = CASE `measure`
  WHEN 'sides-seen' THEN 'sidesSeen'
  WHEN 'skew' THEN 'skewDegrees'
  WHEN 'keystone' THEN 'keystonePercent'
  WHEN 'sampling' THEN 'samplingPpi'
  WHEN 'scale-error' THEN 'scaleErrorPercent'
  WHEN 'sfr50' THEN 'sfr50CyPerMm'
  WHEN 'sfr10' THEN 'sfr10CyPerMm'
  WHEN 'sampling-efficiency' THEN 'samplingEfficiencyPercent'
  WHEN 'sharpening' THEN 'sharpeningOvershootPercent'
  WHEN 'clipped-highlights' THEN 'clippedHighlightsPercent'
  WHEN 'clipped-shadows' THEN 'clippedShadowsPercent'
  WHEN 'border-glare' THEN 'borderGlarePercent'
  WHEN 'possible-glare' THEN 'glareAreaPercent'
  WHEN 'glare' THEN 'glareAreaPercent'
  WHEN 'border-evenness' THEN 'borderLightnessSpreadPercent'
  WHEN 'border-cast' THEN 'borderCastChroma'
  WHEN 'noise' THEN 'noiseDeltaL'
  WHEN 'bit-depth' THEN 'effectiveBitDepth'
  WHEN 'jpeg-quality' THEN 'jpegQuality'
  WHEN 'tone-response' THEN 'toneResponseDeltaL'
  WHEN 'white-balance' THEN 'whiteBalanceDeltaAb'
  WHEN 'lightness-uniformity' THEN 'lightnessUniformityPercent'
  WHEN 'colour-accuracy-mean' THEN 'colourAccuracyMeanDeltaE'
  WHEN 'colour-accuracy-90th' THEN 'colourAccuracy90thDeltaE'
  WHEN 'colour-accuracy-maximum' THEN 'colourAccuracyMaximumDeltaE'
  WHEN 'channel-misregistration' THEN 'targetMisregistrationPx'
  WHEN 'target-sfr10-efficiency' THEN 'targetSfr10EfficiencyPercent'
  WHEN 'target-sfr50-share' THEN 'targetSfr50SharePercent'
  WHEN 'target-sharpening' THEN 'targetPeakSfr'
  WHEN 'target-noise' THEN 'targetNoiseDeltaL'
  WHEN 'reproduction-scale' THEN 'reproductionScalePercent'
END WHERE `measure` IN ('sides-seen', 'skew', 'keystone', 'sampling', 'scale-error', 'sfr50', 'sfr10', 'sampling-efficiency', 'sharpening', 'clipped-highlights', 'clipped-shadows', 'border-glare', 'possible-glare', 'glare', 'border-evenness', 'border-cast', 'noise', 'bit-depth', 'jpeg-quality', 'tone-response', 'white-balance', 'lightness-uniformity', 'colour-accuracy-mean', 'colour-accuracy-90th', 'colour-accuracy-maximum', 'channel-misregistration', 'target-sfr10-efficiency', 'target-sfr50-share', 'target-sharpening', 'target-noise', 'reproduction-scale');
--> statement-breakpoint
UPDATE `choices` SET `explanation` = replace(`explanation`, '"measure":"sides-seen"', '"measure":"sidesSeen"');
--> statement-breakpoint
UPDATE `choices` SET `explanation` = replace(`explanation`, '"measure":"skew"', '"measure":"skewDegrees"');
--> statement-breakpoint
UPDATE `choices` SET `explanation` = replace(`explanation`, '"measure":"keystone"', '"measure":"keystonePercent"');
--> statement-breakpoint
UPDATE `choices` SET `explanation` = replace(`explanation`, '"measure":"sampling"', '"measure":"samplingPpi"');
--> statement-breakpoint
UPDATE `choices` SET `explanation` = replace(`explanation`, '"measure":"scale-error"', '"measure":"scaleErrorPercent"');
--> statement-breakpoint
UPDATE `choices` SET `explanation` = replace(`explanation`, '"measure":"sfr50"', '"measure":"sfr50CyPerMm"');
--> statement-breakpoint
UPDATE `choices` SET `explanation` = replace(`explanation`, '"measure":"sfr10"', '"measure":"sfr10CyPerMm"');
--> statement-breakpoint
UPDATE `choices` SET `explanation` = replace(`explanation`, '"measure":"sampling-efficiency"', '"measure":"samplingEfficiencyPercent"');
--> statement-breakpoint
UPDATE `choices` SET `explanation` = replace(`explanation`, '"measure":"sharpening"', '"measure":"sharpeningOvershootPercent"');
--> statement-breakpoint
UPDATE `choices` SET `explanation` = replace(`explanation`, '"measure":"clipped-highlights"', '"measure":"clippedHighlightsPercent"');
--> statement-breakpoint
UPDATE `choices` SET `explanation` = replace(`explanation`, '"measure":"clipped-shadows"', '"measure":"clippedShadowsPercent"');
--> statement-breakpoint
UPDATE `choices` SET `explanation` = replace(`explanation`, '"measure":"border-glare"', '"measure":"borderGlarePercent"');
--> statement-breakpoint
UPDATE `choices` SET `explanation` = replace(`explanation`, '"measure":"possible-glare"', '"measure":"glareAreaPercent"');
--> statement-breakpoint
UPDATE `choices` SET `explanation` = replace(`explanation`, '"measure":"glare"', '"measure":"glareAreaPercent"');
--> statement-breakpoint
UPDATE `choices` SET `explanation` = replace(`explanation`, '"measure":"border-evenness"', '"measure":"borderLightnessSpreadPercent"');
--> statement-breakpoint
UPDATE `choices` SET `explanation` = replace(`explanation`, '"measure":"border-cast"', '"measure":"borderCastChroma"');
--> statement-breakpoint
UPDATE `choices` SET `explanation` = replace(`explanation`, '"measure":"noise"', '"measure":"noiseDeltaL"');
--> statement-breakpoint
UPDATE `choices` SET `explanation` = replace(`explanation`, '"measure":"bit-depth"', '"measure":"effectiveBitDepth"');
--> statement-breakpoint
UPDATE `choices` SET `explanation` = replace(`explanation`, '"measure":"jpeg-quality"', '"measure":"jpegQuality"');
--> statement-breakpoint
UPDATE `choices` SET `explanation` = replace(`explanation`, '"measure":"tone-response"', '"measure":"toneResponseDeltaL"');
--> statement-breakpoint
UPDATE `choices` SET `explanation` = replace(`explanation`, '"measure":"white-balance"', '"measure":"whiteBalanceDeltaAb"');
--> statement-breakpoint
UPDATE `choices` SET `explanation` = replace(`explanation`, '"measure":"lightness-uniformity"', '"measure":"lightnessUniformityPercent"');
--> statement-breakpoint
UPDATE `choices` SET `explanation` = replace(`explanation`, '"measure":"colour-accuracy-mean"', '"measure":"colourAccuracyMeanDeltaE"');
--> statement-breakpoint
UPDATE `choices` SET `explanation` = replace(`explanation`, '"measure":"colour-accuracy-90th"', '"measure":"colourAccuracy90thDeltaE"');
--> statement-breakpoint
UPDATE `choices` SET `explanation` = replace(`explanation`, '"measure":"colour-accuracy-maximum"', '"measure":"colourAccuracyMaximumDeltaE"');
--> statement-breakpoint
UPDATE `choices` SET `explanation` = replace(`explanation`, '"measure":"channel-misregistration"', '"measure":"targetMisregistrationPx"');
--> statement-breakpoint
UPDATE `choices` SET `explanation` = replace(`explanation`, '"measure":"target-sfr10-efficiency"', '"measure":"targetSfr10EfficiencyPercent"');
--> statement-breakpoint
UPDATE `choices` SET `explanation` = replace(`explanation`, '"measure":"target-sfr50-share"', '"measure":"targetSfr50SharePercent"');
--> statement-breakpoint
UPDATE `choices` SET `explanation` = replace(`explanation`, '"measure":"target-sharpening"', '"measure":"targetPeakSfr"');
--> statement-breakpoint
UPDATE `choices` SET `explanation` = replace(`explanation`, '"measure":"target-noise"', '"measure":"targetNoiseDeltaL"');
--> statement-breakpoint
UPDATE `choices` SET `explanation` = replace(`explanation`, '"measure":"reproduction-scale"', '"measure":"reproductionScalePercent"');

