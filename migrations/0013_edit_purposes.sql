ALTER TABLE `aims` ADD `note` text;--> statement-breakpoint
ALTER TABLE `aims` ADD `user_id` integer REFERENCES users(id);--> statement-breakpoint
ALTER TABLE `purposes` ADD `set_aside_at` text;