import { type ReactNode, useState } from 'react';
import type { ItemImportReport } from '#core/shared/views/stockItem.ts';
import { useCommand } from '../../bridge/commands.ts';
import { useQuery } from '../../bridge/queries.ts';
import { useText } from '../../bridge/texts.tsx';
import { Button } from '../../ui/Button.tsx';
import { Head, Row, Stack } from '../../ui/Layout.tsx';
import { CalmNote, Refusal, Waiting } from '../../ui/States.tsx';
import { ChooseList } from './ChooseList.tsx';
import { Faults } from './Faults.tsx';

/** A list of items from a file: checked first, taken over whole or not at all. */
export function TakeOver(): ReactNode {
  const t = useText();
  const [csv, setCsv] = useState<string | null>(null);
  const [took, setTook] = useState<ItemImportReport | null>(null);
  const report = useQuery('stock.checkItems', { csv: csv ?? '' }, { when: csv !== null });
  const take = useCommand('stock.importItems');
  async function save(): Promise<void> {
    if (csv === null) return;
    const done = await take.run({ csv });
    if (!done.ok) return;
    setCsv(null);
    setTook(done.value);
  }
  return (
    <Stack gap={2}>
      <Head title={t('stock.ui.import')} />
      <p className="quiet">{t('stock.ui.importText')}</p>
      <ChooseList
        onChoose={(text) => {
          setTook(null);
          setCsv(text);
        }}
      />
      {csv !== null && report.loading ? <Waiting /> : null}
      {csv !== null && report.data ? (
        <Report of={report.data} busy={take.busy} onTake={() => void save()} />
      ) : null}
      <Refusal refusal={report.error ?? take.refusal} />
      {took ? (
        <CalmNote
          title={t('stock.ui.tookOver', { added: took.added.length, changed: took.changed.length })}
        />
      ) : null}
    </Stack>
  );
}

function Report(props: {
  readonly of: ItemImportReport;
  readonly busy: boolean;
  readonly onTake: () => void;
}): ReactNode {
  const t = useText();
  const { rows, added, changed, same, faults } = props.of;
  const nothing = added.length + changed.length === 0 ? t('stock.ui.nothingNew') : undefined;
  const unfit = faults.length > 0 ? t('stock.ui.listFaults', { n: faults.length }) : undefined;
  return (
    <Stack gap={2}>
      <p>{t('stock.ui.checked', { rows, added: added.length, changed: changed.length, same })}</p>
      {added.length > 0 ? (
        <p className="quiet">{t('stock.ui.newNames', { names: added.join(', ') })}</p>
      ) : null}
      {changed.length > 0 ? (
        <p className="quiet">{t('stock.ui.changedNames', { names: changed.join(', ') })}</p>
      ) : null}
      {unfit ? <p className="lamp">{unfit}</p> : null}
      <Faults label={t('stock.ui.import')} of={faults} />
      <Row>
        <Button kind="go" busy={props.busy} why={unfit ?? nothing} onPress={props.onTake}>
          {t('stock.ui.takeOver')}
        </Button>
      </Row>
    </Stack>
  );
}
