/** What the shells tell the core when they start it. */
export type ServiceOptions = {
  readonly dataDir: string;
  readonly migrationsDir: string;
  /** Built worker entries: the core's, and the demo shop builder's. */
  readonly workerFile: string;
  readonly seedFile: string;
  readonly version: string;
  readonly log: (line: string) => void;
  /** How long after the start the day's copy is made, in ms: the first screen does not wait for it. */
  readonly firstCopyMs?: number;
  /** How long nobody has asked the writer for anything before it keeps what past days came to, in ms. */
  readonly quietMs?: number;
};
