import { type ReactNode, useState } from 'react';
import { money } from '#core/shared/text/format.ts';
import { date } from '#core/shared/text/when.ts';
import type { LocalDay } from '#core/shared/units.ts';
import type { VoucherView } from '#core/shared/views/vouchers.ts';
import { useCommand } from '../../bridge/commands.ts';
import { useMay } from '../../bridge/person.ts';
import { useManner, useText, useToday } from '../../bridge/texts.tsx';
import { Button, LinkButton } from '../../ui/Button.tsx';
import { DayField } from '../../ui/DateFields.tsx';
import { Row } from '../../ui/Layout.tsx';
import { Caution, Refusal } from '../../ui/States.tsx';
import css from './billing.module.css';

/** A voucher past its day: its money let go or held again, and taken late on the owner's word. */
export function VoucherOver(props: { readonly voucher: VoucherView }): ReactNode {
  const t = useText();
  const manner = useManner();
  const isOwner = useMay('owner');
  const { id: voucherId, expired, leftMinor, letGoMinor, letGoDay, mayLetGo } = props.voucher;
  const restore = useCommand('billing.restoreVoucher');
  if (!expired || (leftMinor === 0 && letGoMinor === 0)) return null;
  const amount = money(manner, letGoMinor);
  const waits = leftMinor > 0 && !mayLetGo && letGoDay !== null;
  return (
    <section className={css['form']}>
      {waits ? <p className="t1 quiet">{t('voucher.heldUntil', { day: date(manner, letGoDay) })}</p> : null}
      {isOwner && mayLetGo ? <LetGo voucherIds={[voucherId]} amountMinor={leftMinor} /> : null}
      {letGoMinor > 0 ? <p className="t1 quiet">{t('voucher.letGoSaid', { amount })}</p> : null}
      <Refusal refusal={restore.refusal} />
      {isOwner && letGoMinor > 0 ? (
        <Row>
          <LinkButton onPress={() => void restore.run({ voucherId })}>
            {t('voucher.restore', { amount })}
          </LinkButton>
        </Row>
      ) : null}
      {isOwner ? <TakeLate voucherId={voucherId} /> : <p className="t1 quiet">{t('voucher.ownerDecides')}</p>}
    </section>
  );
}

/** Lets what is left of one or several go, with what that means beside it. */
export function LetGo(props: {
  readonly voucherIds: readonly VoucherView['id'][];
  readonly amountMinor: number;
}): ReactNode {
  const t = useText();
  const manner = useManner();
  const [open, setOpen] = useState(false);
  const letGo = useCommand('billing.letVouchersGo');
  const { voucherIds, amountMinor } = props;
  const values = { count: voucherIds.length, amount: money(manner, amountMinor) };
  if (!open)
    return (
      <Row>
        <LinkButton onPress={() => setOpen(true)}>{t('voucher.letGoAsk', values)}</LinkButton>
      </Row>
    );
  return (
    <div className={css['form']}>
      <Caution>{t('voucher.letGoCaution')}</Caution>
      <Refusal refusal={letGo.refusal} />
      <Row>
        <Button
          kind="final"
          busy={letGo.busy}
          onPress={() => void letGo.run({ voucherIds: [...voucherIds] })}
        >
          {t('voucher.letGo', values)}
        </Button>
      </Row>
    </div>
  );
}

function TakeLate(props: { readonly voucherId: VoucherView['id'] }): ReactNode {
  const t = useText();
  const today = useToday();
  const [open, setOpen] = useState(false);
  const [untilDay, setUntil] = useState<LocalDay | null>(today);
  const late = useCommand('billing.takeVoucherLate');
  async function run(): Promise<void> {
    if (untilDay) await late.run({ voucherId: props.voucherId, untilDay });
  }
  if (!open) return <LinkButton onPress={() => setOpen(true)}>{t('voucher.takeLateAsk')}</LinkButton>;
  return (
    <>
      <DayField label={t('voucher.takeUntil')} value={untilDay} onChange={setUntil} />
      <Refusal refusal={late.refusal} />
      <Row>
        <Button
          busy={late.busy}
          why={untilDay ? undefined : t('voucher.takeLateFirst')}
          onPress={() => void run()}
        >
          {t('voucher.takeLate')}
        </Button>
      </Row>
    </>
  );
}
