INSERT INTO `shortfalls` (`choice_id`, `capture_id`, `measure`)
SELECT `choices`.`id`, `captures`.`id`, json_extract(`shortfall`.`value`, '$.measure')
FROM `choices`
JOIN `captures` ON `captures`.`id` = coalesce(`choices`.`capture_id`, json_extract(`choices`.`explanation`, '$.bestId'))
JOIN json_each(`choices`.`explanation`, '$.verdicts') AS `verdict` ON json_extract(`verdict`.`value`, '$.captureId') = `captures`.`id`
JOIN json_each(`verdict`.`value`, '$.shortfalls') AS `shortfall`;
