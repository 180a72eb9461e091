import { mayUse } from '#core/shared/roles.ts';
import type { MoneyDesk } from '#core/shared/views/billing.ts';
import { useQuery } from '../../bridge/queries.ts';

/** Deposits of jobs that will not be done: somebody has to say what becomes of them. */
export function endedDeposits(desk: MoneyDesk): MoneyDesk['deposits'] {
  return desk.deposits.filter((row) => row.jobState === 'cancelled' || row.jobState === 'noShow');
}

/** How many things wait in Money: work to bill, money to pay back, deposits of jobs that are over, reminders due, drafts, quotes past their day. */
export function useMoneyNeeds(): number | undefined {
  const here = useQuery('access.here', {});
  const may = mayUse(here.data?.me?.role ?? null, 'desk');
  const desk = useQuery('billing.readDesk', {}, { when: may });
  if (!may || !desk.data) return undefined;
  const { toBill, reminders, drafts, quotes, open } = desk.data;
  const payBack = open.filter((row) => row.owedMinor < 0).length;
  const ended = endedDeposits(desk.data).length;
  return (
    ended + payBack + toBill.length + reminders.length + drafts.length + quotes.filter((q) => q.lapsed).length
  );
}
