import { amountOf } from '#core/shared/text/format.ts';
import { amountText, type Manner } from '#core/shared/text/manner.ts';
import { send } from '../bridge/client.ts';
import type { Host } from '../bridge/host.ts';
import type { useText } from '../bridge/texts.tsx';
import type { Act, Search } from '../ui/commandRegistry.ts';
import { go } from '../ui/router.ts';

type Say = ReturnType<typeof useText>;
const MOST = 5;

/** What the command bar finds: customers and vehicles and items on the shelf for the desk, jobs for everybody. */
export function searchRecords(host: Host, t: Say, manner: Manner, desk: boolean): Search {
  return async (text) => {
    const found = await Promise.all([
      desk ? findPeople(host, t('ui.acts.found'), text) : [],
      findJobs(host, t, text),
      desk ? findItems(host, t, manner, text) : [],
    ]);
    return found.flat();
  };
}

async function findPeople(host: Host, group: string, text: string): Promise<readonly Act[]> {
  const [customers, vehicles] = await Promise.all([
    send(host, 'people.findCustomers', { text, limit: MOST }),
    send(host, 'people.findVehicles', { text, limit: MOST }),
  ]);
  return [
    ...customers.value.map((c) => ({
      id: `customer.${c.id}`,
      group,
      label: c.name,
      note: c.phone,
      run: () => go(`/customers/${c.id}`),
    })),
    ...vehicles.value.map((v) => ({
      id: `vehicle.${v.id}`,
      group,
      label: v.makeModel,
      note: `${v.plate} ${v.customer}`.trim(),
      run: () => go(`/vehicles/${v.id}`),
    })),
  ];
}

async function findJobs(host: Host, t: Say, text: string): Promise<readonly Act[]> {
  const jobs = await send(host, 'bookings.jobs', { list: null, search: text, limit: MOST });
  return jobs.value.rows.map((job) => ({
    id: `job.${job.id}`,
    group: t('ui.acts.foundJobs'),
    label: t('ui.acts.job', { number: job.number, customer: job.customer }),
    note: `${job.makeModel} ${job.plate} · ${t(`word.jobState.${job.state}`)}`,
    run: () => go(`/jobs/${job.id}`),
  }));
}

async function findItems(host: Host, t: Say, manner: Manner, text: string): Promise<readonly Act[]> {
  const items = await send(host, 'stock.findItems', { text, limit: MOST });
  return items.value.map((item) => ({
    id: `item.${item.id}`,
    group: t('ui.acts.foundItems'),
    label: item.name,
    note: [amountText(amountOf(manner, item.unit, item.onHand)), item.place].filter(Boolean).join(' · '),
    run: () => go(`/stock/items/${item.id}`),
  }));
}
