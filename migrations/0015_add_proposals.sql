CREATE TABLE `proposals` (
	`id` integer PRIMARY KEY AUTOINCREMENT NOT NULL,
	`choice_id` integer NOT NULL,
	`capture_id` integer NOT NULL,
	`aim_id` integer NOT NULL,
	`sentence` text NOT NULL,
	`created_at` text DEFAULT (strftime('%Y-%m-%dT%H:%M:%fZ', 'now')) NOT NULL,
	`answer` text,
	`answered_at` text,
	`user_id` integer,
	FOREIGN KEY (`choice_id`) REFERENCES `choices`(`id`) ON UPDATE no action ON DELETE cascade,
	FOREIGN KEY (`capture_id`) REFERENCES `captures`(`id`) ON UPDATE no action ON DELETE cascade,
	FOREIGN KEY (`aim_id`) REFERENCES `aims`(`id`) ON UPDATE no action ON DELETE restrict,
	FOREIGN KEY (`user_id`) REFERENCES `users`(`id`) ON UPDATE no action ON DELETE restrict
);
--> statement-breakpoint
CREATE UNIQUE INDEX `proposals_open` ON `proposals` (`choice_id`) WHERE answer is null;--> statement-breakpoint
CREATE INDEX `proposals_of_capture` ON `proposals` (`capture_id`);