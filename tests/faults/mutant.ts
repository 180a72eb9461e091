/** A fault that somebody might write: where, what stands there, what would stand there, and which tests must notice. */
export type Mutant = {
  readonly what: string;
  readonly file: string;
  readonly find: string;
  readonly put: string;
  readonly tests: readonly string[];
};
