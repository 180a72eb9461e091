import { type ReactNode, useState } from 'react';
import { useCommand } from '../../bridge/commands.ts';
import { useDocument } from '../../bridge/documents.ts';
import { useText } from '../../bridge/texts.tsx';
import { Button, LinkTo } from '../../ui/Button.tsx';
import { Column, Head, Place, Row, Stack } from '../../ui/Layout.tsx';
import { CalmNote, Refusal } from '../../ui/States.tsx';
import { TakeOver } from './TakeOver.tsx';
import { WorthOn } from './WorthOn.tsx';

/** Labels for the shelves, items as a list to save and to read back, and a whole count to ask for. */
export function Lists(): ReactNode {
  const t = useText();
  return (
    <Place label={t('stock.ui.lists')} columns="left">
      <Column label={t('stock.ui.labels')}>
        <LinkTo quiet to="/stock">
          {t('stock.ui.back')}
        </LinkTo>
        <Stack gap={4}>
          <Labels />
          <Export />
          <CountAll />
          <WorthOn />
        </Stack>
      </Column>
      <Column label={t('stock.ui.import')} divided>
        <TakeOver />
      </Column>
    </Place>
  );
}

function Labels(): ReactNode {
  const t = useText();
  const file = useDocument('stock.labels');
  const give = useCommand('stock.giveCodes');
  const [given, setGiven] = useState<number | null>(null);
  async function codes(): Promise<void> {
    const done = await give.run({});
    if (done.ok) setGiven(done.value.given);
  }
  return (
    <Stack gap={2}>
      <Head title={t('stock.ui.labels')} />
      <p className="quiet">{t('stock.ui.labelsText')}</p>
      <Row>
        <Button busy={file.busy} onPress={() => void file.open({})}>
          {t('stock.ui.printLabels')}
        </Button>
        <Button busy={give.busy} onPress={() => void codes()}>
          {t('stock.ui.giveCodes')}
        </Button>
      </Row>
      {given === null ? null : <CalmNote title={t('stock.ui.codesGiven', { given })} />}
      <Refusal refusal={file.refusal ?? give.refusal} />
    </Stack>
  );
}

function Export(): ReactNode {
  const t = useText();
  const file = useDocument('stock.exportItems');
  return (
    <Stack gap={2}>
      <Head title={t('stock.ui.items')} />
      <p className="quiet">{t('stock.ui.exportText')}</p>
      <Row>
        <Button busy={file.busy} onPress={() => void file.save({})}>
          {t('stock.ui.export')}
        </Button>
      </Row>
      <Refusal refusal={file.refusal} />
    </Stack>
  );
}

function CountAll(): ReactNode {
  const t = useText();
  const ask = useCommand('stock.askCount');
  const [opened, setOpened] = useState<number | null>(null);
  async function all(): Promise<void> {
    const done = await ask.run({ all: true });
    if (done.ok) setOpened(done.value.opened);
  }
  return (
    <Stack gap={2}>
      <Head title={t('stock.ui.wholeCount')} />
      <p className="quiet">{t('stock.ui.wholeCountText')}</p>
      <Row>
        <Button busy={ask.busy} onPress={() => void all()}>
          {t('stock.ui.countAll')}
        </Button>
      </Row>
      {opened === null ? null : <CalmNote title={t('stock.ui.countAllAsked', { opened })} />}
      <Refusal refusal={ask.refusal} />
    </Stack>
  );
}
