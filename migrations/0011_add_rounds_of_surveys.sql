CREATE TABLE `round_prints` (
	`id` integer PRIMARY KEY AUTOINCREMENT NOT NULL,
	`round_id` integer NOT NULL,
	`print_id` integer NOT NULL,
	`position` integer NOT NULL,
	`survey_id` integer,
	`passed_at` text,
	FOREIGN KEY (`round_id`) REFERENCES `rounds`(`id`) ON UPDATE no action ON DELETE cascade,
	FOREIGN KEY (`print_id`) REFERENCES `prints`(`id`) ON UPDATE no action ON DELETE cascade,
	FOREIGN KEY (`survey_id`) REFERENCES `surveys`(`id`) ON UPDATE no action ON DELETE set null
);
--> statement-breakpoint
CREATE UNIQUE INDEX `round_prints_once` ON `round_prints` (`round_id`,`print_id`);--> statement-breakpoint
CREATE INDEX `round_prints_in_order` ON `round_prints` (`round_id`,`position`);--> statement-breakpoint
CREATE TABLE `rounds` (
	`id` integer PRIMARY KEY AUTOINCREMENT NOT NULL,
	`name` text NOT NULL,
	`place_id` integer,
	`sample` text,
	`user_id` integer,
	`started_at` text DEFAULT (strftime('%Y-%m-%dT%H:%M:%fZ', 'now')) NOT NULL,
	FOREIGN KEY (`place_id`) REFERENCES `places`(`id`) ON UPDATE no action ON DELETE set null,
	FOREIGN KEY (`user_id`) REFERENCES `users`(`id`) ON UPDATE no action ON DELETE restrict,
	CONSTRAINT "rounds_sample" CHECK("rounds"."sample" is null or json_valid("rounds"."sample"))
);
--> statement-breakpoint
CREATE INDEX `regions_of_finding` ON `finding_regions` (`finding_id`);