import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { expect, it } from 'vitest';
import { clockFrom } from '#core/host/clock.ts';

it('stands still at a named instant, and follows a file that names one', () => {
  // 2026-11-25T09:00Z is 1 795 597 200 s after 1970-01-01T00:00Z (20 782 days and 9 hours).
  expect(clockFrom('2026-11-25T09:00:00Z')()).toBe((20_782 * 24 + 9) * 3_600_000);
  const folder = mkdtempSync(path.join(os.tmpdir(), 'rakelight-clock-'));
  const file = path.join(folder, 'clock');
  writeFileSync(file, '2026-11-25T09:00:00Z\n');
  const now = clockFrom(file);
  const before = now();
  writeFileSync(file, '2026-11-25T11:24:00Z\n');
  expect(now() - before).toBe(144 * 60_000);
  writeFileSync(file, '');
  expect(now() - before).toBe(144 * 60_000);
  rmSync(folder, { recursive: true });
});

it('refuses a clock that holds no instant, and is the machine’s own without one', () => {
  expect(() => clockFrom('noon')).toThrow('no instant');
  expect(Math.abs(clockFrom(undefined)() - Date.now())).toBeLessThan(60_000);
});
