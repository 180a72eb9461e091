const EXEMPT = [
  /^core\/shared\/text\//,
  /^core\/contract/,
  /^core\/db\/schema/,
  /^core\/shared\/catalogue/,
  /^core\/shared\/views\//,
];
const MAX_LINES = 300;

/** True for a source file that should have been split long ago. */
export function tooLong(name: string, text: string): boolean {
  return !EXEMPT.some((e) => e.test(name)) && text.split('\n').length > MAX_LINES;
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
