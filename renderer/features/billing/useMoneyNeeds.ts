import { mayUse } from '#core/shared/roles.ts';
import { useQuery } from '../../bridge/queries.ts';

/** How many things wait in Money: work to bill, money to pay back, reminders due, drafts, quotes past their day. */
export function useMoneyNeeds(): number | undefined {
  const here = useQuery('access.here', {});
  const may = mayUse(here.data?.me?.role ?? null, 'desk');
  const desk = useQuery('billing.readDesk', {}, { when: may });
  if (!may || !desk.data) return undefined;
  const { toBill, reminders, drafts, quotes, open } = desk.data;
  const payBack = open.filter((row) => row.owedMinor < 0).length;
  return payBack + toBill.length + reminders.length + drafts.length + quotes.filter((q) => q.lapsed).length;
}
