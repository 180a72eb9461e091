/**
 * The largest files that are kept, in MB. A window checks them before it reads one, since what is larger than the way to
 * the core takes would be refused there without a word of why; the core checks them again.
 */
export const SHEET_MOST_MB = 10;
export const PICTURE_MOST_MB = 4;
export const LOGO_MOST_MB = 1;
/** A logo’s sides, in dots: beyond this it is a photograph, not a sign. */
export const LOGO_MOST_PX = 4000;

/** Whether a file of so many bytes is larger than that. */
export function isLarger(bytes: number, mostMb: number): boolean {
  return bytes > mostMb * 1024 * 1024;
}
