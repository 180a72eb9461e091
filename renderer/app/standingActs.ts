import { useMemo } from 'react';
import { mayUse } from '#core/shared/roles.ts';
import type { Me } from '#core/shared/views/people.ts';
import { send, useHost } from '../bridge/client.ts';
import type { Host } from '../bridge/host.ts';
import { useText } from '../bridge/texts.tsx';
import { type Act, type Search, useActs, useSearch } from '../ui/commandRegistry.ts';
import { go } from '../ui/router.ts';
import { setTheme, THEMES } from '../ui/theme.ts';
import { PLACES } from './routes.tsx';

/** What the command bar offers everywhere: the places, taking a call, the look; customers and vehicles by name. */
export function useStandingActs(me: Me): void {
  const t = useText();
  const host = useHost();
  const acts = useMemo<readonly Act[]>(() => {
    const places = PLACES.map((name) => ({
      id: `place.${name}`,
      group: t('ui.acts.go'),
      label: t(`ui.place.${name}`),
      run: () => go(`/${name}`),
    }));
    const looks = THEMES.map((theme) => ({
      id: `theme.${theme}`,
      group: t('ui.acts.look'),
      label: t(`ui.theme.${theme}`),
      run: () => setTheme(theme),
    }));
    const call = {
      id: 'take-in',
      group: t('ui.acts.do'),
      label: t('ui.acts.takeIn'),
      run: () => go('/take-in'),
    };
    const who = { id: 'who', group: t('ui.acts.do'), label: t('ui.acts.who'), run: () => go('/who') };
    return [...(mayUse(me.role, 'desk') ? [call] : []), who, ...places, ...looks];
  }, [t, me.role]);
  useActs(acts);
  const group = t('ui.acts.found');
  const search = useMemo<Search>(
    () => (text) => (mayUse(me.role, 'desk') ? findPeople(host, group, text) : Promise.resolve([])),
    [host, group, me.role],
  );
  useSearch(search);
}

async function findPeople(host: Host, group: string, text: string): Promise<readonly Act[]> {
  const [customers, vehicles] = await Promise.all([
    send(host, 'people.findCustomers', { text, limit: 5 }),
    send(host, 'people.findVehicles', { text, limit: 5 }),
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
