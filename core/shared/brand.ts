/** A nominal type over a plain value: `Brand<string, 'JobId'>` is a string that only a job id fits into. */
declare const mark: unique symbol;
export type Brand<T, Name extends string> = T & { readonly [mark]: Name };
