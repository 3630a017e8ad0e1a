PRAGMA foreign_keys=OFF;--> statement-breakpoint
CREATE TABLE `__new_target_checks` (
	`id` integer PRIMARY KEY AUTOINCREMENT NOT NULL,
	`uuid` text NOT NULL,
	`set_up_id` integer NOT NULL,
	`original_id` integer NOT NULL,
	`taken_on` text NOT NULL,
	`layout` text,
	`reference` text,
	`reference_name` text,
	`read` text,
	`note` text,
	`user_id` integer,
	`created_at` text DEFAULT (strftime('%Y-%m-%dT%H:%M:%fZ', 'now')) NOT NULL,
	FOREIGN KEY (`set_up_id`) REFERENCES `set_ups`(`id`) ON UPDATE no action ON DELETE restrict,
	FOREIGN KEY (`original_id`) REFERENCES `originals`(`id`) ON UPDATE no action ON DELETE restrict,
	FOREIGN KEY (`user_id`) REFERENCES `users`(`id`) ON UPDATE no action ON DELETE restrict
);
--> statement-breakpoint
INSERT INTO `__new_target_checks`("id", "uuid", "set_up_id", "original_id", "taken_on", "layout", "reference", "reference_name", "read", "note", "user_id", "created_at") SELECT "id", "uuid", "set_up_id", "original_id", "taken_on", "layout", "reference", "reference_name", "read", "note", "user_id", "created_at" FROM `target_checks`;--> statement-breakpoint
DROP TABLE `target_checks`;--> statement-breakpoint
ALTER TABLE `__new_target_checks` RENAME TO `target_checks`;--> statement-breakpoint
PRAGMA foreign_keys=ON;--> statement-breakpoint
CREATE UNIQUE INDEX `target_checks_uuid_unique` ON `target_checks` (`uuid`);--> statement-breakpoint
CREATE INDEX `checks_of_set_up` ON `target_checks` (`set_up_id`,`taken_on`);--> statement-breakpoint
CREATE INDEX `checks_of_original` ON `target_checks` (`original_id`);