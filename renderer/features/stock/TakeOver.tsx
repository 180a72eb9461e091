import { type ReactNode, useState } from 'react';
import { isTextKey } from '#core/shared/text/say.ts';
import type { ItemImportReport, ListFault } from '#core/shared/views/stockItem.ts';
import { useCommand } from '../../bridge/commands.ts';
import { useQuery } from '../../bridge/queries.ts';
import { useText } from '../../bridge/texts.tsx';
import { Button } from '../../ui/Button.tsx';
import { Head, Row, Stack } from '../../ui/Layout.tsx';
import { Item, List } from '../../ui/List.tsx';
import { CalmNote, Refusal, Waiting } from '../../ui/States.tsx';
import css from './stock.module.css';

const MOST_KB = 850;

/** A list of items from a file: checked first, taken over whole or not at all. */
export function TakeOver(): ReactNode {
  const t = useText();
  const [csv, setCsv] = useState<string | null>(null);
  const [tooLong, setTooLong] = useState(false);
  const [took, setTook] = useState<ItemImportReport | null>(null);
  const report = useQuery('stock.checkItems', { csv: csv ?? '' }, { when: csv !== null });
  const take = useCommand('stock.importItems');
  async function choose(file: File | undefined): Promise<void> {
    if (!file) return;
    setTook(null);
    setTooLong(file.size > MOST_KB * 1000);
    setCsv(file.size > MOST_KB * 1000 ? null : await file.text());
  }
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
      <label className={css['file']}>
        {t('stock.ui.chooseList')}
        <input type="file" accept=".csv,text/csv" onChange={(e) => void choose(e.currentTarget.files?.[0])} />
      </label>
      {tooLong ? <p className="lamp">{t('stock.ui.listTooLong', { most: MOST_KB })}</p> : null}
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
      <List label={t('stock.ui.import')}>
        {faults.map((fault) => (
          <Item key={`${fault.line} ${fault.field} ${fault.problem}`} lit>
            <Fault of={fault} />
          </Item>
        ))}
      </List>
      <Row>
        <Button kind="go" busy={props.busy} why={unfit ?? nothing} onPress={props.onTake}>
          {t('stock.ui.takeOver')}
        </Button>
      </Row>
    </Stack>
  );
}

/** The column is named as it stands in the file. */
function Fault(props: { readonly of: ListFault }): ReactNode {
  const t = useText();
  const { line, field, problem, limit } = props.of;
  const key = `problem.${problem}`;
  const said = isTextKey(key) ? t(key, { limit: limit ?? '' }) : problem;
  return <span>{t('stock.ui.listFault', { line, field, problem: said })}</span>;
}
