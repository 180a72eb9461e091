import { type ReactNode, useState } from 'react';
import type { JobId } from '#core/shared/ids.ts';
import { film, hours, money, range } from '#core/shared/text/format.ts';
import { amountText } from '#core/shared/text/manner.ts';
import { panelName } from '#core/shared/text/sayError.ts';
import { when } from '#core/shared/text/when.ts';
import type { SandingOptionView } from '#core/shared/views/estimate.ts';
import type { BodyStyle } from '#core/shared/vocabulary.ts';
import { useCommand } from '../../bridge/commands.ts';
import { useQuery } from '../../bridge/queries.ts';
import { useManner, useText } from '../../bridge/texts.tsx';
import { LinkButton } from '../../ui/Button.tsx';
import { Head, Stack } from '../../ui/Layout.tsx';
import { Caution, Refusal } from '../../ui/States.tsx';
import css from './estimate.module.css';
import { SandingConsent } from './SandingConsent.tsx';

/** Wet sanding where no polishing reaches: an option with its own film, hours, price, cautions and consent. */
export function SandingOptions(props: { readonly jobId: JobId; readonly body: BodyStyle }): ReactNode {
  const t = useText();
  const options = useQuery('estimate.sanding', { jobId: props.jobId }).data ?? [];
  const [asking, setAsking] = useState<string | null>(null);
  if (options.length === 0) return null;
  return (
    <Stack gap={1}>
      <Head title={t('sanding.title')} level={3} note={t('sanding.note')} />
      {options.map((option) => (
        <Option
          key={option.panel}
          {...props}
          option={option}
          asking={asking === option.panel}
          onAsk={(open) => setAsking(open ? option.panel : null)}
        />
      ))}
      <Caution>{t('sanding.caution.forGood')}</Caution>
      <Caution>{t('sanding.caution.edges')}</Caution>
    </Stack>
  );
}

type OptionProps = {
  readonly jobId: JobId;
  readonly body: BodyStyle;
  readonly option: SandingOptionView;
  readonly asking: boolean;
  readonly onAsk: (open: boolean) => void;
};

function Option(props: OptionProps): ReactNode {
  const t = useText();
  const manner = useManner();
  const { option: o, asking, onAsk } = props;
  const name = panelName(manner.locale, o.panel, props.body);
  const defects = o.defects.map((d) => t(`word.defect.${d}`)).join(', ');
  return (
    <div className={css['option']}>
      <p className={css['optionHead']}>
        <strong>{name}</strong>
        <span className="quiet">{defects}</span>
        <span className="num">
          +{amountText(hours(manner, o.addedMin))} · +{money(manner, o.addedMinor)}
        </span>
      </p>
      <Film option={o} />
      {o.consent ? <Agreed {...props} /> : null}
      {o.refusal && !o.override ? <p className="t1 lit lamp">{t(`sanding.refused.${o.refusal}`)}</p> : null}
      {o.taken || asking ? null : (
        <LinkButton onPress={() => onAsk(true)}>{t('sanding.ask', { panel: name })}</LinkButton>
      )}
      {asking && !o.taken ? <SandingConsent {...props} onClose={() => onAsk(false)} /> : null}
    </div>
  );
}

/** Film that the sanding takes, and with the polishing after it against what may come off. */
function Film(props: { readonly option: SandingOptionView }): ReactNode {
  const t = useText();
  const manner = useManner();
  const { lowTenthUm, highTenthUm, allTenthUm, limitTenthUm } = props.option;
  const high = film(manner, highTenthUm);
  const most = amountText(film(manner, allTenthUm));
  return (
    <p className="t1 quiet">
      {t('sanding.film', {
        range: `${range(film(manner, lowTenthUm).value, high.value)} ${high.unit}`,
        most,
      })}{' '}
      {limitTenthUm === null
        ? t('sanding.limitUnknown')
        : t('sanding.limit', { limit: amountText(film(manner, limitTenthUm)) })}
    </p>
  );
}

/** Who agreed, and the way back: the next version leaves the panel unsanded. */
function Agreed(props: OptionProps): ReactNode {
  const t = useText();
  const manner = useManner();
  const withdraw = useCommand('estimate.withdrawSanding');
  const { consent, panel } = props.option;
  if (!consent) return null;
  const { name, way, atMs, upToTenthUm } = consent;
  return (
    <>
      <p className="t1">
        {t('sanding.agreed', {
          name,
          way: t(`quote.way.${way}`),
          when: when(manner, atMs, Date.now()),
          film: amountText(film(manner, upToTenthUm)),
        })}{' '}
        <LinkButton onPress={() => void withdraw.run({ jobId: props.jobId, panel })}>
          {t('sanding.takeBack')}
        </LinkButton>
      </p>
      <Refusal refusal={withdraw.refusal} />
    </>
  );
}
