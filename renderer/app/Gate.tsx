import { type ReactNode, useMemo } from 'react';
import { type Manner, mannerFor, PLAIN_MANNER } from '#core/shared/text/manner.ts';
import type { ShopState } from '#core/shared/views/shop.ts';
import { useQuery } from '../bridge/queries.ts';
import { MannerProvider, useText } from '../bridge/texts.tsx';
import { LinkButton } from '../ui/Button.tsx';
import { useKeptFocus } from '../ui/keptFocus.ts';
import { Place } from '../ui/Layout.tsx';
import { matchPath, type Params, usePath } from '../ui/router.ts';
import { Refusal } from '../ui/States.tsx';
import { Frame } from './Frame.tsx';
import { type Route, routes } from './routes.tsx';
import { Screen } from './Screen.tsx';

/** Finds the first route that fits. The root is the first place. */
export function routeFor(path: string): { readonly route: Route | undefined; readonly params: Params } {
  const wanted = path === '/' ? '/desk' : path;
  for (const route of routes) {
    const params = matchPath(route.path, wanted);
    if (params) return { route, params };
  }
  return { route: undefined, params: {} };
}

function mannerOf(shop: ShopState | undefined): Manner {
  if (!shop?.setUp) return PLAIN_MANNER;
  return mannerFor(shop);
}

/** Without a shop: set it up. With nobody here: ask who it is. Else the screen of the path. */
export function Gate(): ReactNode {
  const t = useText();
  const path = usePath();
  useKeptFocus(path);
  const shop = useQuery('shop.state', {});
  const here = useQuery('access.here', {}, { when: shop.data?.setUp === true });
  const manner = useMemo(() => mannerOf(shop.data), [shop.data]);
  const found = routeFor(path);
  // Asked again in vain: what is shown, and typed into it, stays.
  const unknown = [shop, here].find((asked) => asked.data === undefined && asked.error !== null);
  const me = here.data?.me ?? null;
  return (
    <MannerProvider manner={manner}>
      {unknown && found.route?.open !== true ? (
        <Place label="">
          <Refusal refusal={unknown.error}>
            <LinkButton onPress={unknown.ask}>{t('ui.again')}</LinkButton>
          </Refusal>
        </Place>
      ) : found.route?.open === true ? (
        <Screen route={found.route} params={found.params} path={path} />
      ) : shop.data?.setUp === false ? (
        <Screen {...routeFor('/set-up')} path="/set-up" />
      ) : here.data && !me ? (
        <Screen {...routeFor('/who')} path="/who" />
      ) : me ? (
        <Frame {...found} path={path} me={me} />
      ) : null}
    </MannerProvider>
  );
}
