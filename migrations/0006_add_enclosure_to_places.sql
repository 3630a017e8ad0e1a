ALTER TABLE `places` ADD `enclosure_kind` text;--> statement-breakpoint
ALTER TABLE `places` ADD `revision` integer DEFAULT 1 NOT NULL;