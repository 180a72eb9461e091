import { expect } from 'vitest';
import type { Run } from '../run.ts';

/** A technician can't reach money, and is told so plainly. */
export async function roles(run: Run): Promise<void> {
  await run.signIn('Wren Tarn');
  await run.open('/money');
  await run.see('This is for the desk and the owner.');
  await run.shot('29-technician');
  expect(await run.ask('billing.readDesk', {})).toBeNull();
  await run.open('/figures');
  await run.see(/^This is for the .*owner/);
}
