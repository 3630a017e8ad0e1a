CREATE TABLE `eye_checks` (
	`id` integer PRIMARY KEY AUTOINCREMENT NOT NULL,
	`address` text NOT NULL,
	`print_id` integer NOT NULL,
	`side` text NOT NULL,
	`purpose_id` integer NOT NULL,
	`aim_id` integer NOT NULL,
	`left_id` integer NOT NULL,
	`right_id` integer NOT NULL,
	`rule_id` integer NOT NULL,
	`decisive` text,
	`close_call` integer NOT NULL,
	`user_id` integer NOT NULL,
	`created_at` text DEFAULT (strftime('%Y-%m-%dT%H:%M:%fZ', 'now')) NOT NULL,
	`answer` text,
	`answered_at` text,
	FOREIGN KEY (`print_id`) REFERENCES `prints`(`id`) ON UPDATE no action ON DELETE cascade,
	FOREIGN KEY (`purpose_id`) REFERENCES `purposes`(`id`) ON UPDATE no action ON DELETE restrict,
	FOREIGN KEY (`aim_id`) REFERENCES `aims`(`id`) ON UPDATE no action ON DELETE restrict,
	FOREIGN KEY (`left_id`) REFERENCES `captures`(`id`) ON UPDATE no action ON DELETE cascade,
	FOREIGN KEY (`right_id`) REFERENCES `captures`(`id`) ON UPDATE no action ON DELETE cascade,
	FOREIGN KEY (`rule_id`) REFERENCES `captures`(`id`) ON UPDATE no action ON DELETE cascade,
	FOREIGN KEY (`user_id`) REFERENCES `users`(`id`) ON UPDATE no action ON DELETE restrict,
	CONSTRAINT "eye_checks_two" CHECK("eye_checks"."left_id" <> "eye_checks"."right_id" and "eye_checks"."rule_id" in ("eye_checks"."left_id", "eye_checks"."right_id"))
);
--> statement-breakpoint
CREATE UNIQUE INDEX `eye_checks_address_unique` ON `eye_checks` (`address`);--> statement-breakpoint
CREATE UNIQUE INDEX `eye_checks_open` ON `eye_checks` (`user_id`,`print_id`,`side`,`purpose_id`) WHERE answer is null;--> statement-breakpoint
CREATE INDEX `eye_checks_of_purpose` ON `eye_checks` (`purpose_id`,`answer`);