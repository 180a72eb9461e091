import type { ReactNode } from 'react';
import { useCommand } from '../../bridge/commands.ts';
import { useMay } from '../../bridge/person.ts';
import { useQuery } from '../../bridge/queries.ts';
import { useText } from '../../bridge/texts.tsx';
import { LinkButton } from '../../ui/Button.tsx';
import { Row } from '../../ui/Layout.tsx';
import { Refusal } from '../../ui/States.tsx';
import { DemoBuild } from './DemoBuild.tsx';
import css from './shop.module.css';

const AGED_DAYS = 7;

/** A demo shop whose busy fortnight has gone by offers to be built anew around today; nothing else ever shows. */
export function DemoLine(): ReactNode {
  const t = useText();
  const shop = useQuery('shop.state', {});
  const isOwner = useMay('owner');
  const age = shop.data?.setUp ? (shop.data.demoAgeDays ?? 0) : 0;
  if (age <= AGED_DAYS) return null;
  return (
    <div className={css['demo']} role="status">
      <span className="quiet">{t('shop.demo.aged', { days: age })}</span>
      {isOwner ? <DemoBuild rebuild>{t('shop.demo.rebuild')}</DemoBuild> : null}
    </div>
  );
}

/** The way out of the demo shop, back to the shop of this data folder. */
export function LeaveDemo(): ReactNode {
  const t = useText();
  const leave = useCommand('host.leaveDemo');
  async function out(): Promise<void> {
    const done = await leave.run({});
    if (done.ok) location.reload();
  }
  return (
    <div>
      <p className="t1 quiet">{t('shop.demo.is')}</p>
      <Row>
        <LinkButton why={leave.busy ? t('ui.waiting') : undefined} onPress={() => void out()}>
          {t('shop.demo.leave')}
        </LinkButton>
      </Row>
      <Refusal refusal={leave.refusal} />
    </div>
  );
}
