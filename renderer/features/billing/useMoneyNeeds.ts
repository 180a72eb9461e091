import type { MoneyDesk } from '#core/shared/views/moneyDesk.ts';
import { useMay } from '../../bridge/person.ts';
import { useQuery } from '../../bridge/queries.ts';

/** Deposits of jobs that will not be done or are billed: somebody has to say what becomes of them. */
export function endedDeposits(desk: MoneyDesk): MoneyDesk['deposits'] {
  return desk.deposits.filter((row) => row.over);
}

/** How many things wait in Money: work to bill, money to pay back, deposits of jobs that are over, reminders due, drafts, quotes past their day. */
export function useMoneyNeeds(): number | undefined {
  const may = useMay('desk');
  const desk = useQuery('billing.readDesk', {}, { when: may });
  if (!may || !desk.data) return undefined;
  const { toBill, payBack, reminders, drafts, quotes } = desk.data;
  const ended = endedDeposits(desk.data).length;
  return (
    ended +
    payBack.length +
    toBill.length +
    reminders.length +
    drafts.length +
    quotes.filter((q) => q.lapsed).length
  );
}
