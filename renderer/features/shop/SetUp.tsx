import { type ReactNode, useState } from 'react';
import { useText } from '../../bridge/texts.tsx';
import { Button } from '../../ui/Button.tsx';
import { Head, Place, Row, Stack } from '../../ui/Layout.tsx';
import { DemoBuild } from './DemoBuild.tsx';
import { SetUpSteps } from './SetUpPlace.tsx';
import css from './shop.module.css';

/** First start: set up my shop, or look at the demo shop. */
export function SetUp(): ReactNode {
  const t = useText();
  const [begun, setBegun] = useState(false);
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
            <DemoBuild rebuild={false}>{t('shop.first.demo')}</DemoBuild>
          </Row>
          <p className="t1 dusty">{t('shop.first.demoText')}</p>
        </Stack>
      </div>
    </Place>
  );
}
