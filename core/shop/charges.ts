import type { z } from 'zod';
import type { WriteCtx } from '../context.ts';
import { cleanName } from '../people/rules/names.ts';
import type { chargeInput, packageInput } from '../shared/catalogue/shopInputs.ts';
import type { Minor, Ppm } from '../shared/units.ts';
import { todayOf } from './commands.ts';
import { beginsOn } from './rules/dated.ts';
import { putCharge, putPackage } from './store.ts';

/** Sets the least a job costs, or a surcharge, from today or a later day on. @throws DAY_PAST */
export function setCharge(ctx: WriteCtx, input: z.output<typeof chargeInput>): { readonly id: string } {
  const id = putCharge(ctx.db, {
    id: ctx.newId<string>(),
    kind: input.kind,
    amountMinor: (input.kind === 'minimum' ? input.amountMinor : 0) as Minor,
    sharePpm: (input.kind === 'minimum' ? 0 : input.sharePpm) as Ppm,
    fromDay: beginsOn(input.fromDay, todayOf(ctx)),
    addedMs: ctx.now,
  });
  ctx.changed(id, input.kind === 'minimum' ? 'amountMinor' : 'sharePpm', 'fromDay');
  return { id };
}

/** Sets the price of a package from today or a later day on. @throws DAY_PAST · NAME_MISSING */
export function setPackage(ctx: WriteCtx, input: z.output<typeof packageInput>): { readonly id: string } {
  const { wish, interior, protection, bodies } = input;
  const id = putPackage(ctx.db, {
    id: ctx.newId<string>(),
    name: cleanName(input.name, 'package'),
    ...{ wish, interior, protection, bodies },
    priceMinor: input.priceMinor as Minor | null,
    fromDay: beginsOn(input.fromDay, todayOf(ctx)),
    addedMs: ctx.now,
  });
  ctx.changed(id, 'priceMinor', 'fromDay');
  return { id };
}
