const MAX_LINES = 300;

/** True for a source file that should have been split long ago. */
export function tooLong(text: string): boolean {
  return text.split('\n').length > MAX_LINES;
}

const NEVER = [
  /\/work\/[a-z]/,
  /\/root\//,
  /registry\.npmjs\.org/,
  /deb\.debian\.org/,
  /\b(TODO|FIXME|XXX|HACK)\b/,
  /@ts-ignore/,
  /\blorem ipsum\b/i,
];

/** Paths of one machine, hosts of a registry, unfinished marks. */
export function badWords(text: string): readonly string[] {
  return NEVER.flatMap((pattern) => pattern.exec(text)?.[0] ?? []);
}
