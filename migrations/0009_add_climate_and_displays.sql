CREATE TABLE `climate_imports` (
	`id` integer PRIMARY KEY AUTOINCREMENT NOT NULL,
	`place_id` integer NOT NULL,
	`file_name` text,
	`mapping` text DEFAULT '{}' NOT NULL,
	`report` text DEFAULT '{}' NOT NULL,
	`reading_count` integer NOT NULL,
	`user_id` integer,
	`created_at` text DEFAULT (strftime('%Y-%m-%dT%H:%M:%fZ', 'now')) NOT NULL,
	FOREIGN KEY (`place_id`) REFERENCES `places`(`id`) ON UPDATE no action ON DELETE restrict,
	FOREIGN KEY (`user_id`) REFERENCES `users`(`id`) ON UPDATE no action ON DELETE restrict,
	CONSTRAINT "climate_imports_count" CHECK("climate_imports"."reading_count" >= 0)
);
--> statement-breakpoint
CREATE INDEX `climate_imports_of_place` ON `climate_imports` (`place_id`,`id`);--> statement-breakpoint
CREATE TABLE `climate_readings` (
	`place_id` integer NOT NULL,
	`at_seconds` integer NOT NULL,
	`temperature_centi_c` integer,
	`humidity_centi_percent` integer,
	`import_id` integer NOT NULL,
	PRIMARY KEY(`place_id`, `at_seconds`),
	FOREIGN KEY (`place_id`) REFERENCES `places`(`id`) ON UPDATE no action ON DELETE restrict,
	FOREIGN KEY (`import_id`) REFERENCES `climate_imports`(`id`) ON UPDATE no action ON DELETE restrict,
	CONSTRAINT "climate_readings_something" CHECK("climate_readings"."temperature_centi_c" is not null or "climate_readings"."humidity_centi_percent" is not null),
	CONSTRAINT "climate_readings_humidity" CHECK("climate_readings"."humidity_centi_percent" is null or "climate_readings"."humidity_centi_percent" between 0 and 10000)
) WITHOUT ROWID;
--> statement-breakpoint
CREATE TABLE `displays` (
	`id` integer PRIMARY KEY AUTOINCREMENT NOT NULL,
	`print_id` integer NOT NULL,
	`starts_on` text NOT NULL,
	`ends_on` text,
	`lux` real NOT NULL,
	`hours_per_day` real NOT NULL,
	`glazing` text DEFAULT 'not-known' NOT NULL,
	`note` text,
	`user_id` integer,
	`created_at` text DEFAULT (strftime('%Y-%m-%dT%H:%M:%fZ', 'now')) NOT NULL,
	FOREIGN KEY (`print_id`) REFERENCES `prints`(`id`) ON UPDATE no action ON DELETE cascade,
	FOREIGN KEY (`user_id`) REFERENCES `users`(`id`) ON UPDATE no action ON DELETE restrict,
	CONSTRAINT "displays_order" CHECK("displays"."ends_on" is null or "displays"."ends_on" >= "displays"."starts_on"),
	CONSTRAINT "displays_lux" CHECK("displays"."lux" > 0 and "displays"."hours_per_day" > 0 and "displays"."hours_per_day" <= 24)
);
--> statement-breakpoint
CREATE INDEX `displays_of_print` ON `displays` (`print_id`,`starts_on`);