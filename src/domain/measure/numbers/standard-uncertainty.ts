/**
 * Standard uncertainty of a value known to lie within ± `halfWidth` of what is told, any place of it as likely: a / √3 (JCGM 100:2008, 4.3.7).
 * The same is the root mean square of what lies evenly between 0 and `halfWidth`, where 0 is told.
 */
export const evenlyWithin = (halfWidth: number): number => halfWidth / Math.sqrt(3);
