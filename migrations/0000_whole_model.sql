CREATE TABLE `captures` (
	`id` integer PRIMARY KEY AUTOINCREMENT NOT NULL,
	`uuid` text NOT NULL,
	`original_id` integer NOT NULL,
	`print_id` integer,
	`side` text DEFAULT 'front' NOT NULL,
	`method` text,
	`method_basis` text,
	`set_up_id` integer,
	`region` text,
	`divided` integer DEFAULT false NOT NULL,
	`note` text,
	`created_at` text DEFAULT (strftime('%Y-%m-%dT%H:%M:%fZ', 'now')) NOT NULL,
	FOREIGN KEY (`original_id`) REFERENCES `originals`(`id`) ON UPDATE no action ON DELETE restrict,
	FOREIGN KEY (`print_id`) REFERENCES `prints`(`id`) ON UPDATE no action ON DELETE restrict,
	FOREIGN KEY (`set_up_id`) REFERENCES `set_ups`(`id`) ON UPDATE no action ON DELETE restrict,
	CONSTRAINT "captures_side" CHECK("captures"."side" in ('front', 'back')),
	CONSTRAINT "captures_method" CHECK("captures"."method" in ('phone-camera', 'sheet-fed-scanner', 'flatbed-scanner', 'copy-stand-camera') and ("captures"."method" is null) = ("captures"."method_basis" is null)),
	CONSTRAINT "captures_region" CHECK("captures"."region" is null or json_valid("captures"."region"))
);
--> statement-breakpoint
CREATE UNIQUE INDEX `captures_uuid_unique` ON `captures` (`uuid`);--> statement-breakpoint
CREATE INDEX `captures_of_print` ON `captures` (`print_id`,`side`);--> statement-breakpoint
CREATE INDEX `captures_of_original` ON `captures` (`original_id`);--> statement-breakpoint
CREATE TABLE `fixity_checks` (
	`id` integer PRIMARY KEY AUTOINCREMENT NOT NULL,
	`original_id` integer NOT NULL,
	`checked_at` text DEFAULT (strftime('%Y-%m-%dT%H:%M:%fZ', 'now')) NOT NULL,
	`outcome` text NOT NULL,
	`found_sha256` text,
	FOREIGN KEY (`original_id`) REFERENCES `originals`(`id`) ON UPDATE no action ON DELETE restrict
);
--> statement-breakpoint
CREATE INDEX `fixity_of_original` ON `fixity_checks` (`original_id`,`checked_at`);--> statement-breakpoint
CREATE TABLE `originals` (
	`id` integer PRIMARY KEY AUTOINCREMENT NOT NULL,
	`uuid` text NOT NULL,
	`sha256` text NOT NULL,
	`bytes` integer NOT NULL,
	`kind` text NOT NULL,
	`original_name` text NOT NULL,
	`width_px` integer NOT NULL,
	`height_px` integer NOT NULL,
	`bits_per_channel` integer NOT NULL,
	`channels` integer NOT NULL,
	`colour_space` text NOT NULL,
	`profile_name` text,
	`metadata_state` text NOT NULL,
	`metadata_note` text,
	`captured_at` text,
	`device_make` text,
	`device_model` text,
	`lens` text,
	`software` text,
	`exposure_time_s` real,
	`f_number` real,
	`iso_speed` real,
	`focal_length_mm` real,
	`claimed_ppi_x` real,
	`claimed_ppi_y` real,
	`created_at` text DEFAULT (strftime('%Y-%m-%dT%H:%M:%fZ', 'now')) NOT NULL,
	CONSTRAINT "originals_sha256" CHECK(length("originals"."sha256") = 64),
	CONSTRAINT "originals_size" CHECK("originals"."bytes" > 0 and "originals"."width_px" > 0 and "originals"."height_px" > 0)
);
--> statement-breakpoint
CREATE UNIQUE INDEX `originals_uuid_unique` ON `originals` (`uuid`);--> statement-breakpoint
CREATE UNIQUE INDEX `originals_sha256_unique` ON `originals` (`sha256`);--> statement-breakpoint
CREATE TABLE `set_ups` (
	`id` integer PRIMARY KEY AUTOINCREMENT NOT NULL,
	`name` text NOT NULL,
	`method` text NOT NULL,
	`device` text,
	`lens` text,
	`light` text,
	`glass` text,
	`settings` text,
	`price_amount` real,
	`price_currency` text,
	`note` text,
	`created_at` text DEFAULT (strftime('%Y-%m-%dT%H:%M:%fZ', 'now')) NOT NULL
);
--> statement-breakpoint
CREATE UNIQUE INDEX `set_ups_name_unique` ON `set_ups` (`name`);--> statement-breakpoint
CREATE TABLE `aim_limits` (
	`id` integer PRIMARY KEY AUTOINCREMENT NOT NULL,
	`aim_id` integer NOT NULL,
	`measure` text NOT NULL,
	`sense` text NOT NULL,
	`lowest` real,
	`best` real NOT NULL,
	`highest` real,
	`weight` real NOT NULL,
	`required_at_least` real,
	`required_at_most` real,
	`proved_by` text NOT NULL,
	`source` text NOT NULL,
	`source_status` text NOT NULL,
	FOREIGN KEY (`aim_id`) REFERENCES `aims`(`id`) ON UPDATE no action ON DELETE cascade,
	CONSTRAINT "aim_limits_weight" CHECK("aim_limits"."weight" >= 0)
);
--> statement-breakpoint
CREATE UNIQUE INDEX `aim_limits_once` ON `aim_limits` (`aim_id`,`measure`);--> statement-breakpoint
CREATE TABLE `aims` (
	`id` integer PRIMARY KEY AUTOINCREMENT NOT NULL,
	`purpose_id` integer NOT NULL,
	`name` text NOT NULL,
	`version` integer NOT NULL,
	`edition` text NOT NULL,
	`current` integer NOT NULL,
	`created_at` text DEFAULT (strftime('%Y-%m-%dT%H:%M:%fZ', 'now')) NOT NULL,
	FOREIGN KEY (`purpose_id`) REFERENCES `purposes`(`id`) ON UPDATE no action ON DELETE restrict
);
--> statement-breakpoint
CREATE UNIQUE INDEX `aims_version` ON `aims` (`purpose_id`,`version`);--> statement-breakpoint
CREATE UNIQUE INDEX `aims_current` ON `aims` (`purpose_id`) WHERE current = 1;--> statement-breakpoint
CREATE TABLE `choices` (
	`id` integer PRIMARY KEY AUTOINCREMENT NOT NULL,
	`print_id` integer NOT NULL,
	`side` text NOT NULL,
	`purpose_id` integer NOT NULL,
	`aim_id` integer NOT NULL,
	`capture_id` integer,
	`runner_up_id` integer,
	`decided_by` text NOT NULL,
	`user_id` integer,
	`reason` text,
	`sentence` text NOT NULL,
	`explanation` text NOT NULL,
	`created_at` text DEFAULT (strftime('%Y-%m-%dT%H:%M:%fZ', 'now')) NOT NULL,
	`superseded_at` text,
	FOREIGN KEY (`print_id`) REFERENCES `prints`(`id`) ON UPDATE no action ON DELETE cascade,
	FOREIGN KEY (`purpose_id`) REFERENCES `purposes`(`id`) ON UPDATE no action ON DELETE restrict,
	FOREIGN KEY (`aim_id`) REFERENCES `aims`(`id`) ON UPDATE no action ON DELETE restrict,
	FOREIGN KEY (`capture_id`) REFERENCES `captures`(`id`) ON UPDATE no action ON DELETE cascade,
	FOREIGN KEY (`runner_up_id`) REFERENCES `captures`(`id`) ON UPDATE no action ON DELETE set null,
	FOREIGN KEY (`user_id`) REFERENCES `users`(`id`) ON UPDATE no action ON DELETE restrict,
	CONSTRAINT "choices_person_says_why" CHECK("choices"."decided_by" = 'rule' or length(trim(ifnull("choices"."reason", ''))) > 0)
);
--> statement-breakpoint
CREATE UNIQUE INDEX `choices_current` ON `choices` (`print_id`,`side`,`purpose_id`) WHERE superseded_at is null;--> statement-breakpoint
CREATE INDEX `choices_of_capture` ON `choices` (`capture_id`);--> statement-breakpoint
CREATE TABLE `purposes` (
	`id` integer PRIMARY KEY AUTOINCREMENT NOT NULL,
	`key` text NOT NULL,
	`name` text NOT NULL,
	`note` text,
	`position` integer NOT NULL
);
--> statement-breakpoint
CREATE UNIQUE INDEX `purposes_key_unique` ON `purposes` (`key`);--> statement-breakpoint
CREATE TABLE `collection` (
	`id` integer PRIMARY KEY DEFAULT 1 NOT NULL,
	`uuid` text NOT NULL,
	`name` text NOT NULL,
	`object_number_pattern` text DEFAULT '{year}.{item:3}' NOT NULL,
	`is_demo` integer DEFAULT false NOT NULL,
	`created_at` text DEFAULT (strftime('%Y-%m-%dT%H:%M:%fZ', 'now')) NOT NULL,
	CONSTRAINT "collection_single" CHECK("collection"."id" = 1)
);
--> statement-breakpoint
CREATE UNIQUE INDEX `collection_uuid_unique` ON `collection` (`uuid`);--> statement-breakpoint
CREATE TABLE `users` (
	`id` integer PRIMARY KEY AUTOINCREMENT NOT NULL,
	`name` text NOT NULL,
	`role` text DEFAULT 'keeper' NOT NULL,
	`created_at` text DEFAULT (strftime('%Y-%m-%dT%H:%M:%fZ', 'now')) NOT NULL,
	CONSTRAINT "users_role" CHECK("users"."role" in ('keeper', 'cataloguer', 'reader'))
);
--> statement-breakpoint
CREATE UNIQUE INDEX `users_name_unique` ON `users` (`name`);--> statement-breakpoint
CREATE TABLE `finding_regions` (
	`id` integer PRIMARY KEY AUTOINCREMENT NOT NULL,
	`finding_id` integer NOT NULL,
	`points_mm` text NOT NULL,
	FOREIGN KEY (`finding_id`) REFERENCES `findings`(`id`) ON UPDATE no action ON DELETE cascade,
	CONSTRAINT "finding_regions_points" CHECK(json_valid("finding_regions"."points_mm") and json_array_length("finding_regions"."points_mm") >= 3)
);
--> statement-breakpoint
CREATE TABLE `findings` (
	`id` integer PRIMARY KEY AUTOINCREMENT NOT NULL,
	`uuid` text NOT NULL,
	`survey_id` integer NOT NULL,
	`term` text NOT NULL,
	`severity` integer NOT NULL,
	`extent` text,
	`activity` text DEFAULT 'not-known' NOT NULL,
	`side` text DEFAULT 'front' NOT NULL,
	`note` text,
	`capture_id` integer,
	`earlier_finding_id` integer,
	`change` text,
	`created_at` text DEFAULT (strftime('%Y-%m-%dT%H:%M:%fZ', 'now')) NOT NULL,
	FOREIGN KEY (`survey_id`) REFERENCES `surveys`(`id`) ON UPDATE no action ON DELETE cascade,
	FOREIGN KEY (`capture_id`) REFERENCES `captures`(`id`) ON UPDATE no action ON DELETE set null,
	FOREIGN KEY (`earlier_finding_id`) REFERENCES `findings`(`id`) ON UPDATE no action ON DELETE set null,
	CONSTRAINT "findings_severity" CHECK("findings"."severity" between 0 and 4)
);
--> statement-breakpoint
CREATE UNIQUE INDEX `findings_uuid_unique` ON `findings` (`uuid`);--> statement-breakpoint
CREATE INDEX `findings_of_survey` ON `findings` (`survey_id`);--> statement-breakpoint
CREATE INDEX `findings_by_term` ON `findings` (`term`,`severity`);--> statement-breakpoint
CREATE TABLE `surveys` (
	`id` integer PRIMARY KEY AUTOINCREMENT NOT NULL,
	`uuid` text NOT NULL,
	`print_id` integer NOT NULL,
	`surveyed_on` text NOT NULL,
	`user_id` integer,
	`grade` text,
	`grade_basis` text,
	`stability` text DEFAULT 'not-known' NOT NULL,
	`note` text,
	`finished_at` text,
	`created_at` text DEFAULT (strftime('%Y-%m-%dT%H:%M:%fZ', 'now')) NOT NULL,
	FOREIGN KEY (`print_id`) REFERENCES `prints`(`id`) ON UPDATE no action ON DELETE cascade,
	FOREIGN KEY (`user_id`) REFERENCES `users`(`id`) ON UPDATE no action ON DELETE restrict,
	CONSTRAINT "surveys_grade" CHECK("surveys"."grade" in ('good', 'fair', 'poor', 'unacceptable'))
);
--> statement-breakpoint
CREATE UNIQUE INDEX `surveys_uuid_unique` ON `surveys` (`uuid`);--> statement-breakpoint
CREATE INDEX `surveys_of_print` ON `surveys` (`print_id`,`surveyed_on`);--> statement-breakpoint
CREATE TABLE `events` (
	`id` integer PRIMARY KEY AUTOINCREMENT NOT NULL,
	`at` text DEFAULT (strftime('%Y-%m-%dT%H:%M:%fZ', 'now')) NOT NULL,
	`user_id` integer,
	`verb` text NOT NULL,
	`subject` text NOT NULL,
	`subject_id` integer NOT NULL,
	`print_id` integer,
	`detail` text DEFAULT '{}' NOT NULL,
	FOREIGN KEY (`user_id`) REFERENCES `users`(`id`) ON UPDATE no action ON DELETE restrict
);
--> statement-breakpoint
CREATE INDEX `events_of_print` ON `events` (`print_id`,`id`);--> statement-breakpoint
CREATE INDEX `events_of_subject` ON `events` (`subject`,`subject_id`);--> statement-breakpoint
CREATE TABLE `measure_sets` (
	`id` integer PRIMARY KEY AUTOINCREMENT NOT NULL,
	`capture_id` integer NOT NULL,
	`family` text NOT NULL,
	`current` integer NOT NULL,
	`basis` text NOT NULL,
	`duration_ms` integer,
	`created_at` text DEFAULT (strftime('%Y-%m-%dT%H:%M:%fZ', 'now')) NOT NULL,
	FOREIGN KEY (`capture_id`) REFERENCES `captures`(`id`) ON UPDATE no action ON DELETE cascade
);
--> statement-breakpoint
CREATE UNIQUE INDEX `measure_sets_current` ON `measure_sets` (`capture_id`,`family`) WHERE current = 1;--> statement-breakpoint
CREATE INDEX `measure_sets_of_capture` ON `measure_sets` (`capture_id`);--> statement-breakpoint
CREATE TABLE `measures` (
	`id` integer PRIMARY KEY AUTOINCREMENT NOT NULL,
	`set_id` integer NOT NULL,
	`name` text NOT NULL,
	`method_version` integer NOT NULL,
	`value` real,
	`unit` text NOT NULL,
	`spread` real,
	`bound` text,
	`reliability` text,
	`absent_reason` text,
	`note` text,
	`detail` text,
	FOREIGN KEY (`set_id`) REFERENCES `measure_sets`(`id`) ON UPDATE no action ON DELETE cascade,
	CONSTRAINT "measures_value_or_reason" CHECK(("measures"."value" is null) <> ("measures"."absent_reason" is null)),
	CONSTRAINT "measures_reliability" CHECK(("measures"."value" is null) = ("measures"."reliability" is null))
);
--> statement-breakpoint
CREATE UNIQUE INDEX `measures_once_in_set` ON `measures` (`set_id`,`name`);--> statement-breakpoint
CREATE INDEX `measures_by_name` ON `measures` (`name`,`value`);--> statement-breakpoint
CREATE TABLE `places` (
	`id` integer PRIMARY KEY AUTOINCREMENT NOT NULL,
	`parent_id` integer,
	`kind` text NOT NULL,
	`name` text NOT NULL,
	`enclosure_material` text,
	`note` text,
	`created_at` text DEFAULT (strftime('%Y-%m-%dT%H:%M:%fZ', 'now')) NOT NULL,
	FOREIGN KEY (`parent_id`) REFERENCES `places`(`id`) ON UPDATE no action ON DELETE restrict,
	CONSTRAINT "places_kind" CHECK("places"."kind" in ('building', 'room', 'cabinet', 'shelf', 'drawer', 'box', 'album', 'folder', 'sleeve')),
	CONSTRAINT "places_not_own_parent" CHECK("places"."parent_id" is null or "places"."parent_id" <> "places"."id")
);
--> statement-breakpoint
CREATE UNIQUE INDEX `places_name_in_parent` ON `places` (`parent_id`,`name`);--> statement-breakpoint
CREATE UNIQUE INDEX `places_name_at_top` ON `places` (`name`) WHERE parent_id is null;--> statement-breakpoint
CREATE INDEX `places_parent` ON `places` (`parent_id`);--> statement-breakpoint
CREATE TABLE `prints` (
	`id` integer PRIMARY KEY AUTOINCREMENT NOT NULL,
	`uuid` text NOT NULL,
	`object_number` text NOT NULL,
	`object_number_sort` text NOT NULL,
	`title` text DEFAULT '' NOT NULL,
	`date` text,
	`date_earliest` text,
	`date_latest` text,
	`date_ground` text,
	`process_id` text DEFAULT 'not-known' NOT NULL,
	`format_id` text,
	`sheet_width_mm` real,
	`sheet_height_mm` real,
	`image_width_mm` real,
	`image_height_mm` real,
	`border_top_mm` real,
	`border_right_mm` real,
	`border_bottom_mm` real,
	`border_left_mm` real,
	`thickness_mm` real,
	`orientation` text,
	`maker` text,
	`people` text DEFAULT '[]' NOT NULL,
	`subjects` text DEFAULT '[]' NOT NULL,
	`inscription_front` text,
	`inscription_back` text,
	`provenance` text,
	`rights_uri` text,
	`credit` text,
	`value_amount` real,
	`value_currency` text,
	`significance` integer,
	`significance_note` text,
	`place_id` integer,
	`processed_on` text,
	`notes` text,
	`revision` integer DEFAULT 1 NOT NULL,
	`binned_at` text,
	`created_at` text DEFAULT (strftime('%Y-%m-%dT%H:%M:%fZ', 'now')) NOT NULL,
	`updated_at` text DEFAULT (strftime('%Y-%m-%dT%H:%M:%fZ', 'now')) NOT NULL,
	FOREIGN KEY (`place_id`) REFERENCES `places`(`id`) ON UPDATE no action ON DELETE restrict,
	CONSTRAINT "prints_number_present" CHECK(length(trim("prints"."object_number")) > 0),
	CONSTRAINT "prints_orientation" CHECK("prints"."orientation" in ('portrait', 'landscape', 'square')),
	CONSTRAINT "prints_significance" CHECK("prints"."significance" between 1 and 5),
	CONSTRAINT "prints_value" CHECK("prints"."value_amount" is null or ("prints"."value_amount" >= 0 and "prints"."value_currency" is not null)),
	CONSTRAINT "prints_sizes" CHECK(ifnull("prints"."sheet_width_mm", 1) > 0 and ifnull("prints"."sheet_height_mm", 1) > 0 and ifnull("prints"."image_width_mm", 1) > 0 and ifnull("prints"."image_height_mm", 1) > 0 and ifnull("prints"."thickness_mm", 1) > 0),
	CONSTRAINT "prints_borders" CHECK(ifnull("prints"."border_top_mm", 0) >= 0 and ifnull("prints"."border_right_mm", 0) >= 0 and ifnull("prints"."border_bottom_mm", 0) >= 0 and ifnull("prints"."border_left_mm", 0) >= 0),
	CONSTRAINT "prints_lists" CHECK(json_valid("prints"."people") and json_valid("prints"."subjects"))
);
--> statement-breakpoint
CREATE UNIQUE INDEX `prints_uuid_unique` ON `prints` (`uuid`);--> statement-breakpoint
CREATE UNIQUE INDEX `prints_objectNumber_unique` ON `prints` (`object_number`);--> statement-breakpoint
CREATE INDEX `prints_by_number` ON `prints` (`binned_at`,`object_number_sort`);--> statement-breakpoint
CREATE INDEX `prints_by_date` ON `prints` (`date_earliest`,`date_latest`);--> statement-breakpoint
CREATE INDEX `prints_by_place` ON `prints` (`place_id`);--> statement-breakpoint
CREATE INDEX `prints_by_format` ON `prints` (`format_id`);--> statement-breakpoint
CREATE INDEX `prints_by_process` ON `prints` (`process_id`);--> statement-breakpoint
CREATE TABLE `work` (
	`id` integer PRIMARY KEY AUTOINCREMENT NOT NULL,
	`kind` text NOT NULL,
	`capture_id` integer,
	`print_id` integer,
	`side` text,
	`state` text DEFAULT 'waiting' NOT NULL,
	`attempts` integer DEFAULT 0 NOT NULL,
	`lease_until` text,
	`error` text,
	`created_at` text DEFAULT (strftime('%Y-%m-%dT%H:%M:%fZ', 'now')) NOT NULL,
	`started_at` text,
	`finished_at` text,
	FOREIGN KEY (`capture_id`) REFERENCES `captures`(`id`) ON UPDATE no action ON DELETE cascade,
	FOREIGN KEY (`print_id`) REFERENCES `prints`(`id`) ON UPDATE no action ON DELETE cascade,
	CONSTRAINT "work_subject" CHECK(("work"."kind" = 'measure' and "work"."capture_id" is not null) or ("work"."kind" = 'compare' and "work"."print_id" is not null and "work"."side" is not null)),
	CONSTRAINT "work_state" CHECK("work"."state" in ('waiting', 'running', 'done', 'failed', 'cancelled'))
);
--> statement-breakpoint
CREATE INDEX `work_by_state` ON `work` (`state`,`id`);--> statement-breakpoint
CREATE UNIQUE INDEX `work_open_measure` ON `work` (`capture_id`) WHERE kind = 'measure' and state in ('waiting', 'running');--> statement-breakpoint
CREATE UNIQUE INDEX `work_open_compare` ON `work` (`print_id`,`side`) WHERE kind = 'compare' and state = 'waiting';