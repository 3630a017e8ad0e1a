CREATE TABLE `recapture_exemptions` (
	`id` integer PRIMARY KEY AUTOINCREMENT NOT NULL,
	`print_id` integer NOT NULL,
	`side` text NOT NULL,
	`purpose_id` integer NOT NULL,
	`aim_id` integer NOT NULL,
	`capture_id` integer,
	`reason` text NOT NULL,
	`user_id` integer,
	`created_at` text DEFAULT (strftime('%Y-%m-%dT%H:%M:%fZ', 'now')) NOT NULL,
	`taken_back_at` text,
	FOREIGN KEY (`print_id`) REFERENCES `prints`(`id`) ON UPDATE no action ON DELETE cascade,
	FOREIGN KEY (`purpose_id`) REFERENCES `purposes`(`id`) ON UPDATE no action ON DELETE restrict,
	FOREIGN KEY (`aim_id`) REFERENCES `aims`(`id`) ON UPDATE no action ON DELETE restrict,
	FOREIGN KEY (`capture_id`) REFERENCES `captures`(`id`) ON UPDATE no action ON DELETE cascade,
	FOREIGN KEY (`user_id`) REFERENCES `users`(`id`) ON UPDATE no action ON DELETE restrict,
	CONSTRAINT "recapture_exemptions_why" CHECK(length(trim("recapture_exemptions"."reason")) > 0)
);
--> statement-breakpoint
CREATE INDEX `recapture_exemptions_of_print` ON `recapture_exemptions` (`print_id`,`side`);--> statement-breakpoint
CREATE TABLE `work_sheet_rows` (
	`id` integer PRIMARY KEY AUTOINCREMENT NOT NULL,
	`sheet_id` integer NOT NULL,
	`print_id` integer NOT NULL,
	`side` text NOT NULL,
	`position` integer NOT NULL,
	`place_path` text NOT NULL,
	`method` text,
	`set_up_name` text,
	`priority` text NOT NULL,
	`reasons` text NOT NULL,
	`advice` text NOT NULL,
	`capture_id` integer,
	`known_capture_ids` text NOT NULL,
	`state` text DEFAULT 'open' NOT NULL,
	`changed_at` text,
	`opened_again_at` text,
	`closed_by_capture_id` integer,
	FOREIGN KEY (`sheet_id`) REFERENCES `work_sheets`(`id`) ON UPDATE no action ON DELETE cascade,
	FOREIGN KEY (`print_id`) REFERENCES `prints`(`id`) ON UPDATE no action ON DELETE cascade,
	FOREIGN KEY (`capture_id`) REFERENCES `captures`(`id`) ON UPDATE no action ON DELETE set null,
	FOREIGN KEY (`closed_by_capture_id`) REFERENCES `captures`(`id`) ON UPDATE no action ON DELETE set null,
	CONSTRAINT "work_sheet_rows_state" CHECK("work_sheet_rows"."state" in ('open', 'ticked', 'closed', 'let-go'))
);
--> statement-breakpoint
CREATE UNIQUE INDEX `work_sheet_rows_once` ON `work_sheet_rows` (`sheet_id`,`print_id`,`side`);--> statement-breakpoint
CREATE INDEX `work_sheet_rows_of_print` ON `work_sheet_rows` (`print_id`,`side`);--> statement-breakpoint
CREATE TABLE `work_sheets` (
	`id` integer PRIMARY KEY AUTOINCREMENT NOT NULL,
	`uuid` text NOT NULL,
	`name` text NOT NULL,
	`purpose_id` integer NOT NULL,
	`user_id` integer,
	`created_at` text DEFAULT (strftime('%Y-%m-%dT%H:%M:%fZ', 'now')) NOT NULL,
	FOREIGN KEY (`purpose_id`) REFERENCES `purposes`(`id`) ON UPDATE no action ON DELETE restrict,
	FOREIGN KEY (`user_id`) REFERENCES `users`(`id`) ON UPDATE no action ON DELETE restrict
);
--> statement-breakpoint
CREATE UNIQUE INDEX `work_sheets_uuid_unique` ON `work_sheets` (`uuid`);