import type { ReactNode } from 'react';
import { sayLimit } from '#core/shared/text/sayLimit.ts';
import type { LimitView } from '#core/shared/views/estimate.ts';
import type { BodyStyle } from '#core/shared/vocabulary.ts';
import { useManner, useText } from '../../bridge/texts.tsx';
import { Head } from '../../ui/Layout.tsx';
import { Item, List } from '../../ui/List.tsx';

/** What the quote will say stays, softens or is not known. */
export function LimitList(props: {
  readonly limits: readonly LimitView[];
  readonly body: BodyStyle | undefined;
}): ReactNode {
  const t = useText();
  const { locale } = useManner();
  return (
    <>
      <Head title={t('estimate.limits')} level={3} />
      {props.limits.length === 0 ? <p className="quiet">{t('estimate.noLimits')}</p> : null}
      <List label={t('estimate.limits')}>
        {props.limits.map((l) => (
          <Item key={`${l.key} ${l.panel} ${l.defect}`} lit={l.key !== 'unseen'}>
            {sayLimit(locale, l, props.body)}
          </Item>
        ))}
      </List>
    </>
  );
}
