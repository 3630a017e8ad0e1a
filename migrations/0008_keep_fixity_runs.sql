CREATE TABLE `fixity_runs` (
	`id` integer PRIMARY KEY AUTOINCREMENT NOT NULL,
	`started_at` text NOT NULL,
	`ended_at` text,
	`strays` text DEFAULT '[]' NOT NULL
);
--> statement-breakpoint
ALTER TABLE `fixity_checks` ADD `run_id` integer REFERENCES fixity_runs(id);--> statement-breakpoint
CREATE INDEX `fixity_of_run` ON `fixity_checks` (`run_id`,`original_id`);