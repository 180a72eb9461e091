/** How somebody agreed. */
export const CONSENT_WAYS = ['signature', 'spoken', 'telephone', 'email', 'letter'] as const;
export type ConsentWay = (typeof CONSENT_WAYS)[number];
