import { afterEach, beforeEach, expect, test } from 'vitest';
import type { Wish } from '#core/shared/views/estimate.ts';
import { addDoneStage, addJob } from '#tests/core/paint/job.ts';
import { openTestShop, type TestShop } from '#tests/helpers/shop.ts';

let shop: TestShop;
beforeEach(() => {
  shop = openTestShop();
});
afterEach(() => shop.close());

const CASES = [
  { wish: 'interior', kind: 'interior', purpose: 'interior' },
  { wish: 'clean', kind: 'wash', purpose: 'washOnly' },
  { wish: 'protect', kind: 'protect', purpose: 'protection' },
] as const satisfies readonly { readonly wish: Wish; readonly kind: string; readonly purpose: string }[];

test.each(CASES)(
  '$kind learns from finished $purpose jobs as correction does',
  async ({ wish, kind, purpose }) => {
    const asked = addJob(shop);
    const minutes = async (): Promise<number> => {
      shop.write('estimate.provisional', { jobId: asked.jobId, wish, condition: 'worn' });
      const [newest] = await shop.read('estimate.ofJob', { jobId: asked.jobId });
      return newest?.stages.find((s) => s.kind === kind)?.p50Min ?? 0;
    };
    const before = await minutes();
    expect(before).toBeGreaterThan(10);
    for (let n = 2; n < 14; n += 1) {
      const { jobId } = addJob(shop, n);
      shop.db.raw.prepare("UPDATE job SET purpose = ?, state = 'collected' WHERE id = ?").run(purpose, jobId);
      addDoneStage(shop, jobId, 1, kind, 60, 90);
    }
    // Twelve jobs that all took half as long again: most of it is believed, never more than all of it.
    const after = await minutes();
    expect(after / before).toBeGreaterThan(1.25);
    expect(after / before).toBeLessThan(1.5);
  },
);
