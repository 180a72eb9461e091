import type { ReactNode } from 'react';
import { hours } from '#core/shared/text/format.ts';
import { amountText } from '#core/shared/text/manner.ts';
import type { MoneyFiguresView } from '#core/shared/views/figuresMoney.ts';
import { useManner, useText } from '../../bridge/texts.tsx';
import { LinkTo } from '../../ui/Button.tsx';
import { Caution } from '../../ui/States.tsx';
import { knowsLabour } from './parts.ts';

/** Whether the margin is after labour, and whose hours are missing in it. */
export function LabourNote(props: { readonly view: MoneyFiguresView }): ReactNode {
  const t = useText();
  const manner = useManner();
  const { total, byTechnician } = props.view;
  const link = (
    <LinkTo quiet to="/shop">
      {t('figures.wages.say')}
    </LinkTo>
  );
  if (total.workedMin === 0) return null;
  if (!knowsLabour(total))
    return (
      <Caution>
        {t('figures.wages.none')} {link}
      </Caution>
    );
  const names = byTechnician.filter((row) => row.unknownMin > 0).map((row) => row.name);
  return (
    <>
      <Caution>{t('figures.wages.all')}</Caution>
      {names.length > 0 ? (
        <p>
          <span className="lamp">
            {t('figures.wages.some', {
              hours: amountText(hours(manner, total.unknownMin)),
              names: names.join(', '),
            })}
          </span>{' '}
          {link}
        </p>
      ) : null}
    </>
  );
}
