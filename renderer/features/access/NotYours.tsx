import type { ReactNode } from 'react';
import type { Role } from '#core/shared/roles.ts';
import type { Me } from '#core/shared/views/people.ts';
import { useText } from '../../bridge/texts.tsx';
import { LinkTo } from '../../ui/Button.tsx';
import { Place } from '../../ui/Layout.tsx';
import { Empty } from '../../ui/States.tsx';

/** A place that needs another role: who may, who is here, and the ways on. */
export function NotYours(props: { readonly needs: Role; readonly me: Me }): ReactNode {
  const t = useText();
  const { needs, me } = props;
  return (
    <Place label={t('access.notYours')}>
      <Empty
        title={t(`access.needs.${needs}`)}
        text={t('access.hereAs', { name: me.name, role: t(`word.role.${me.role}`) })}
      >
        <LinkTo to="/who">{t('access.somebodyElse')}</LinkTo>
        <LinkTo to="/desk">{t('access.today')}</LinkTo>
      </Empty>
    </Place>
  );
}
