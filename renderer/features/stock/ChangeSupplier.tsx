import type { ReactNode } from 'react';
import { money } from '#core/shared/text/format.ts';
import type { Manner } from '#core/shared/text/manner.ts';
import { dayText, weekday } from '#core/shared/text/when.ts';
import { localDayOf } from '#core/shared/time.ts';
import type { SupplierView } from '#core/shared/views/stock.ts';
import { useCommand } from '../../bridge/commands.ts';
import { useEdited } from '../../bridge/edited.ts';
import { useManner, useText } from '../../bridge/texts.tsx';
import { Button, LinkButton } from '../../ui/Button.tsx';
import { Elsewhere } from '../../ui/Elsewhere.tsx';
import { Head, Row, Stack } from '../../ui/Layout.tsx';
import { Refusal } from '../../ui/States.tsx';
import { noonOf, type SupplierDraft, SupplierFields, sentSupplier } from './SupplierForm.tsx';

/** Changes what is written down of a supplier, or says that they are no longer used. */
export function ChangeSupplier(props: { readonly of: SupplierView; readonly onDone: () => void }): ReactNode {
  const t = useText();
  const manner = useManner();
  const { of } = props;
  const { name, email, leadDays, minOrderMinor, openWeekdays, closedDays } = of;
  const stored: SupplierDraft = { name, email, leadDays, minOrderMinor, openWeekdays, closedDays };
  const edited = useEdited<SupplierDraft>(stored, of.revision);
  const { draft, put, clashes } = edited;
  const change = useCommand('stock.changeSupplier');
  async function send(changes: Parameters<typeof change.run>[0]['changes']): Promise<void> {
    const done = await change.run({ supplierId: of.id, revision: of.revision, changes });
    if (done.ok) props.onDone();
  }
  const nameless = draft.name.trim() === '' ? t('stock.ui.supplierName') : undefined;
  return (
    <Stack gap={2}>
      <Head title={of.name} />
      <SupplierFields draft={draft} set={put} />
      <Elsewhere
        edited={edited}
        stored={stored}
        label={(key) => t(`stock.ui.${LABELS[key]}`)}
        value={(key) => said(stored, manner)[key]}
      />
      <Refusal refusal={change.refusal} />
      <Row>
        <Button
          kind="go"
          busy={change.busy}
          why={clashes.length > 0 ? t('ui.elsewhere.choose') : nameless}
          onPress={() => void send(sentSupplier(draft))}
        >
          {t('stock.ui.saveChanges')}
        </Button>
        <LinkButton onPress={props.onDone}>{t('stock.ui.leave')}</LinkButton>
        <LinkButton
          quiet
          why={edited.typed ? t('stock.ui.typedFirst') : undefined}
          onPress={() => void send({ endedDay: localDayOf(Date.now(), manner.zone) })}
        >
          {t('stock.ui.endSupplier')}
        </LinkButton>
      </Row>
    </Stack>
  );
}

const LABELS = {
  name: 'name',
  email: 'email',
  leadDays: 'supplierLead',
  minOrderMinor: 'supplierMinimum',
  openWeekdays: 'supplierWorks',
  closedDays: 'supplierShut',
} as const satisfies Readonly<Record<keyof SupplierDraft, string>>;

/** What is stored of a supplier, as people read it. */
function said(stored: SupplierDraft, manner: Manner): Readonly<Record<keyof SupplierDraft, string>> {
  const days = stored.openWeekdays.map((day) => weekday({ ...manner, zone: 'UTC' }, noonOf(day)));
  return {
    name: stored.name,
    email: stored.email,
    leadDays: String(stored.leadDays ?? 0),
    minOrderMinor: money(manner, stored.minOrderMinor ?? 0),
    openWeekdays: days.join(' '),
    closedDays: stored.closedDays.map((day) => dayText(manner, day)).join(', '),
  };
}
