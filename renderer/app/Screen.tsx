import { type ReactNode, Suspense, use } from 'react';
import { useText } from '../bridge/texts.tsx';
import { LinkButton, LinkTo } from '../ui/Button.tsx';
import { Place } from '../ui/Layout.tsx';
import type { Params } from '../ui/router.ts';
import { Empty, ErrorNote, Waiting } from '../ui/States.tsx';
import { Boundary } from './Boundary.tsx';
import type { Route, ScreenProps } from './routes.tsx';

const loading = new Map<string, Promise<(props: ScreenProps) => ReactNode>>();

function load(route: Route): Promise<(props: ScreenProps) => ReactNode> {
  let found = loading.get(route.path);
  if (!found) {
    found = route.load().then(
      (Loaded) => (props: ScreenProps) => <Loaded {...props} />,
      (problem: unknown) => {
        loading.delete(route.path);
        throw problem;
      },
    );
    loading.set(route.path, found);
  }
  return found;
}

function Loaded(props: { readonly route: Route; readonly params: Params }): ReactNode {
  const Shown = use(load(props.route));
  return <Shown params={props.params} />;
}

/**
 * One screen, loaded when first shown. What breaks in it stays in it; what is typed stays with its record: another one
 * in the path is a screen begun anew.
 */
export function Screen(props: {
  readonly route: Route | undefined;
  readonly params: Params;
  readonly path: string;
}): ReactNode {
  const t = useText();
  const { route } = props;
  if (!route)
    return (
      <Place label={t('ui.missing.title')}>
        <Empty title={t('ui.missing.title')} text={t('ui.missing.text')}>
          <LinkTo to="/">{t('ui.missing.back')}</LinkTo>
        </Empty>
      </Place>
    );
  return (
    <Boundary
      resetKey={props.path}
      fallback={(again) => (
        <Place label={t('ui.broken.title')}>
          <ErrorNote title={t('ui.broken.title')} safe={t('ui.broken.safe')} next={t('ui.broken.next')}>
            <LinkButton onPress={again}>{t('ui.again')}</LinkButton>
            <LinkTo to="/">{t('ui.missing.back')}</LinkTo>
          </ErrorNote>
        </Place>
      )}
    >
      <Suspense fallback={<SlowWait />}>
        <Loaded key={Object.values(props.params).join('/')} route={route} params={props.params} />
      </Suspense>
    </Boundary>
  );
}

function SlowWait(): ReactNode {
  const t = useText();
  return (
    <Place label={t('ui.waiting')}>
      <Waiting />
    </Place>
  );
}
