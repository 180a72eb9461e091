import type { ReactNode } from 'react';
import { amountAsTyped } from '#core/shared/text/format.ts';
import { amountText } from '#core/shared/text/manner.ts';
import type { CountImportReport } from '#core/shared/views/stockCounts.ts';
import { useCommand } from '../../bridge/commands.ts';
import { useQuery } from '../../bridge/queries.ts';
import { useManner, useText } from '../../bridge/texts.tsx';
import { Stack } from '../../ui/Layout.tsx';
import { Item, List } from '../../ui/List.tsx';
import { FromFile, TakeList } from './FromFile.tsx';
import { useChosenList } from './useChosenList.ts';

/** A filled-in count list from a file: checked first, taken over whole or not at all. */
export function TakeCounts(): ReactNode {
  const t = useText();
  const { csv, took, choose, taken } = useChosenList<CountImportReport>();
  const report = useQuery('stock.checkCounts', { csv: csv ?? '' }, { when: csv !== null });
  const take = useCommand('stock.importCounts');
  async function save(): Promise<void> {
    if (csv === null) return;
    const done = await take.run({ csv });
    if (done.ok) taken(done.value);
  }
  return (
    <FromFile
      title={t('stock.ui.countBack')}
      text={t('stock.ui.countBackText')}
      onChoose={choose}
      checking={csv !== null && report.loading}
      refusal={report.error ?? take.refusal}
      took={took && t('stock.ui.countTaken', { n: took.counted.length })}
    >
      {csv !== null && report.data ? (
        <Report of={report.data} busy={take.busy} onTake={() => void save()} />
      ) : null}
    </FromFile>
  );
}

function Report(props: {
  readonly of: CountImportReport;
  readonly busy: boolean;
  readonly onTake: () => void;
}): ReactNode {
  const t = useText();
  const manner = useManner();
  const { rows, empty, counted, faults } = props.of;
  const nothing = counted.length === 0 ? t('stock.ui.countNoFigure') : undefined;
  const differs = counted.filter((c) => c.difference !== 0);
  return (
    <Stack gap={2}>
      <p>{t('stock.ui.countChecked', { rows, counted: counted.length, empty })}</p>
      {counted.length > differs.length ? (
        <p className="quiet">{t('stock.ui.countSame', { n: counted.length - differs.length })}</p>
      ) : null}
      {differs.length > 0 ? (
        <List label={t('stock.ui.countBack')}>
          {differs.map((c) => (
            <Item key={c.itemName}>
              <span>
                {t('stock.ui.countDiffers', {
                  item: c.itemName,
                  counted: amountText(amountAsTyped(manner, c.unit, c.counted)),
                  by: amountText(amountAsTyped(manner, c.unit, Math.abs(c.difference))),
                  way: c.difference > 0 ? 'more' : 'less',
                })}
              </span>
            </Item>
          ))}
        </List>
      ) : null}
      <TakeList
        label={t('stock.ui.countBack')}
        faults={faults}
        nothing={nothing}
        word={t('stock.ui.countTake')}
        busy={props.busy}
        onTake={props.onTake}
      />
    </Stack>
  );
}
