import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { findChromium } from '../helpers/chromium.ts';
import { chapters } from './chapters.ts';
import { type StartedRun, startRun } from './run.ts';

const choice = findChromium();

/** The whole job of a shop by hand in one window, over the real door and one real file. */
describe.skipIf(choice === null)('the main job', () => {
  let started: StartedRun | null = null;
  let broken: string | null = null;

  beforeAll(async () => {
    if (choice) started = await startRun(choice);
  });
  afterAll(async () => {
    await started?.stop();
  });

  for (const chapter of chapters)
    it(chapter.title, async (test) => {
      if (broken) return test.skip(`needs the chapter “${broken}”`);
      if (!started) throw new Error('the program did not start');
      broken = chapter.title;
      try {
        await chapter.tell(started.run);
        expect(started.run.faults).toEqual([]);
      } catch (problem) {
        await started.failed(chapter.title);
        throw problem;
      }
      broken = null;
    });
});
