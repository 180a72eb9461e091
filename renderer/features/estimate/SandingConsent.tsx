import { type ReactNode, useState } from 'react';
import { CONSENT_WAYS, type ConsentWay } from '#core/shared/consent.ts';
import type { JobId } from '#core/shared/ids.ts';
import type { SandingOptionView } from '#core/shared/views/estimate.ts';
import { useCommand } from '../../bridge/commands.ts';
import { useMe } from '../../bridge/person.ts';
import { useQuery } from '../../bridge/queries.ts';
import { useText } from '../../bridge/texts.tsx';
import { Button, LinkButton } from '../../ui/Button.tsx';
import { TextField } from '../../ui/Field.tsx';
import { Row } from '../../ui/Layout.tsx';
import { Select } from '../../ui/Select.tsx';
import { Refusal } from '../../ui/States.tsx';
import css from './estimate.module.css';

type Props = { readonly jobId: JobId; readonly option: SandingOptionView; readonly onClose: () => void };

/** Consent and plan in one; against the film rules also the name of whoever takes that on, with a reason. */
function useSanding({ jobId, option, onClose }: Props) {
  const me = useMe();
  const agree = useCommand('estimate.agreeSanding');
  const { panel, highTenthUm: upToTenthUm } = option;
  const against = option.refusal !== null && option.override === null;

  async function save(name: string, way: ConsentWay, reason: string): Promise<void> {
    const allow = against ? { person: me?.name ?? '', reason } : null;
    const agreed = await agree.run({ jobId, panel, name, way, upToTenthUm, allow });
    if (agreed.ok) onClose();
  }
  return { against, save, busy: agree.busy, refusal: agree.refusal };
}

export function SandingConsent(props: Props): ReactNode {
  const t = useText();
  const customer = useQuery('bookings.job', { jobId: props.jobId }).data?.customer.name;
  const [typed, setName] = useState<string | null>(null);
  const [way, setWay] = useState<ConsentWay>('signature');
  const [reason, setReason] = useState('');
  const sanding = useSanding(props);
  const name = typed ?? customer ?? '';
  return (
    <div className={css['consent']}>
      <div className={css['pair']}>
        <TextField label={t('sanding.who')} value={name} onChange={setName} maxLength={120} autoFocus />
        <Select<ConsentWay>
          label={t('sanding.way')}
          options={CONSENT_WAYS.map((value) => ({ value, label: t(`quote.way.${value}`) }))}
          value={way}
          onChange={setWay}
        />
      </div>
      {sanding.against ? (
        <TextField label={t('paint.overrideReason')} value={reason} onChange={setReason} maxLength={400} />
      ) : null}
      <Row>
        <Button kind="final" onPress={() => void sanding.save(name, way, reason)} busy={sanding.busy}>
          {t(sanding.against ? 'sanding.recordUnderName' : 'sanding.record')}
        </Button>
        <LinkButton onPress={props.onClose}>{t('paint.close')}</LinkButton>
      </Row>
      <Refusal refusal={sanding.refusal} />
    </div>
  );
}
