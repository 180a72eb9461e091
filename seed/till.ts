import { seeded } from '../core/shared/random.ts';
import type { Minor } from '../core/shared/units.ts';
import { drawer } from './draw.ts';
import { actAs, DAY, MINUTE, type Stage } from './story.ts';

/** What stays in the till for change. */
const FLOAT_MINOR = 20_000;

/** Every week the till is counted before the shop closes, and all but the change goes to the bank; now and then it is a little off. */
export function keepTill(on: Stage, startMs: number): void {
  const draw = drawer(seeded(11));
  for (let day = on.untilMs - DAY; day > startMs + 3 * DAY; day -= 7 * DAY)
    on.events.at(on.floor.openBefore(day).endMs - 20 * MINUTE, (now) => {
      actAs(on, on.desk, now);
      const { expectedMinor } = on.door.read('billing.readTill', {});
      const offMinor = expectedMinor > FLOAT_MINOR && draw.chance(0.06) ? draw.pick([-500, -200, 100]) : 0;
      const countedMinor = (expectedMinor + offMinor) as Minor;
      on.door.write('billing.countCash', {
        ...{ expectedMinor, countedMinor, bankedMinor: Math.max(0, countedMinor - FLOAT_MINOR) as Minor },
        reason: offMinor === 0 ? '' : 'change given wrongly',
      });
    });
}
