PRAGMA foreign_keys=OFF;--> statement-breakpoint
CREATE TABLE `__new_fingerprints` (
	`capture_id` integer PRIMARY KEY NOT NULL,
	`print` blob,
	FOREIGN KEY (`capture_id`) REFERENCES `captures`(`id`) ON UPDATE no action ON DELETE cascade
);
--> statement-breakpoint
INSERT INTO `__new_fingerprints`("capture_id", "print") SELECT "capture_id", "print" FROM `fingerprints`;--> statement-breakpoint
DROP TABLE `fingerprints`;--> statement-breakpoint
ALTER TABLE `__new_fingerprints` RENAME TO `fingerprints`;--> statement-breakpoint
PRAGMA foreign_keys=ON;