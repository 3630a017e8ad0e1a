CREATE TABLE `fingerprints` (
	`capture_id` integer PRIMARY KEY NOT NULL,
	`print` blob NOT NULL,
	FOREIGN KEY (`capture_id`) REFERENCES `captures`(`id`) ON UPDATE no action ON DELETE cascade
);
