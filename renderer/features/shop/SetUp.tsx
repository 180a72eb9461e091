import { type ReactNode, useState } from 'react';
import { useCommand } from '../../bridge/commands.ts';
import { useText } from '../../bridge/texts.tsx';
import { Button } from '../../ui/Button.tsx';
import { Head, Place, Row, Stack } from '../../ui/Layout.tsx';
import { Refusal } from '../../ui/States.tsx';
import { SetUpSteps } from './SetUpPlace.tsx';
import css from './shop.module.css';

/** First start: set up my shop, or look at the demo shop. */
export function SetUp(): ReactNode {
  const t = useText();
  const [begun, setBegun] = useState(false);
  const demo = useCommand('host.openDemo');
  if (begun) return <SetUpSteps />;
  return (
    <Place label={t('shop.first.title')}>
      <div className={css['first']}>
        <Head level={1} title={t('shop.first.title')} />
        <Stack gap={3}>
          <p className="quiet">{t('shop.first.text')}</p>
          <Row>
            <Button kind="go" onPress={() => setBegun(true)}>
              {t('shop.first.mine')}
            </Button>
            <Button busy={demo.busy} onPress={() => void openDemo()}>
              {t('shop.first.demo')}
            </Button>
          </Row>
          <p className="t1 dusty">{demo.busy ? t('shop.first.building') : t('shop.first.demoText')}</p>
          <Refusal refusal={demo.refusal} />
        </Stack>
      </div>
    </Place>
  );

  async function openDemo(): Promise<void> {
    const done = await demo.run({ rebuild: false });
    if (done.ok) location.reload();
  }
}
