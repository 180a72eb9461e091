import type { ReactNode } from 'react';
import { limitSentences } from '#core/shared/text/limits.ts';
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
  const manner = useManner();
  const sentences = limitSentences(manner, props.limits, props.body);
  return (
    <>
      <Head title={t('estimate.limits')} level={3} />
      {props.limits.length === 0 ? <p className="quiet">{t('estimate.noLimits')}</p> : null}
      <List label={t('estimate.limits')}>
        {sentences.map((text) => (
          <Item key={text} lit>
            {text}
          </Item>
        ))}
      </List>
    </>
  );
}
