import type { commonTexts } from './text/en/common.ts';

/** What can be wrong with a field of an input: each has its words `problem.<name>` in the locale files. */
export type Problem = keyof typeof commonTexts extends infer K
  ? K extends `problem.${infer N}`
    ? N
    : never
  : never;

/** The name of a problem where a schema wants a message: a name without words does not compile. */
export function problem<P extends Problem>(name: P): P {
  return name;
}
