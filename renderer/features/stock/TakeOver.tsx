import type { ReactNode } from 'react';
import type { ItemImportReport } from '#core/shared/views/stockItem.ts';
import { useCommand } from '../../bridge/commands.ts';
import { useQuery } from '../../bridge/queries.ts';
import { useText } from '../../bridge/texts.tsx';
import { Stack } from '../../ui/Layout.tsx';
import { FromFile, TakeList } from './FromFile.tsx';
import { useChosenList } from './useChosenList.ts';

/** A list of items from a file: checked first, taken over whole or not at all. */
export function TakeOver(): ReactNode {
  const t = useText();
  const { csv, took, choose, taken } = useChosenList<ItemImportReport>();
  const report = useQuery('stock.checkItems', { csv: csv ?? '' }, { when: csv !== null });
  const take = useCommand('stock.importItems');
  async function save(): Promise<void> {
    if (csv === null) return;
    const done = await take.run({ csv });
    if (done.ok) taken(done.value);
  }
  const said = took && t('stock.ui.tookOver', { added: took.added.length, changed: took.changed.length });
  return (
    <FromFile
      title={t('stock.ui.import')}
      text={t('stock.ui.importText')}
      onChoose={choose}
      checking={csv !== null && report.loading}
      refusal={report.error ?? take.refusal}
      took={said}
    >
      {csv !== null && report.data ? (
        <Report of={report.data} busy={take.busy} onTake={() => void save()} />
      ) : null}
    </FromFile>
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
  return (
    <Stack gap={2}>
      <p>{t('stock.ui.checked', { rows, added: added.length, changed: changed.length, same })}</p>
      {added.length > 0 ? (
        <p className="quiet">{t('stock.ui.newNames', { names: added.join(', ') })}</p>
      ) : null}
      {changed.length > 0 ? (
        <p className="quiet">{t('stock.ui.changedNames', { names: changed.join(', ') })}</p>
      ) : null}
      <TakeList
        label={t('stock.ui.import')}
        faults={faults}
        nothing={nothing}
        word={t('stock.ui.takeOver')}
        busy={props.busy}
        onTake={props.onTake}
      />
    </Stack>
  );
}
