CREATE TABLE `shortfalls` (
	`id` integer PRIMARY KEY AUTOINCREMENT NOT NULL,
	`choice_id` integer NOT NULL,
	`capture_id` integer NOT NULL,
	`measure` text NOT NULL,
	FOREIGN KEY (`choice_id`) REFERENCES `choices`(`id`) ON UPDATE no action ON DELETE cascade,
	FOREIGN KEY (`capture_id`) REFERENCES `captures`(`id`) ON UPDATE no action ON DELETE cascade
);
--> statement-breakpoint
CREATE UNIQUE INDEX `shortfalls_once` ON `shortfalls` (`choice_id`,`measure`);--> statement-breakpoint
CREATE INDEX `shortfalls_of_capture` ON `shortfalls` (`capture_id`);