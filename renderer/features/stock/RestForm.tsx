import { type ReactNode, useState } from 'react';
import type { ContainerView } from '#core/shared/views/stockContainers.ts';
import { useCommand } from '../../bridge/commands.ts';
import { useText } from '../../bridge/texts.tsx';
import { AmountField } from '../../ui/AmountField.tsx';
import { Button, LinkButton } from '../../ui/Button.tsx';
import { Segmented, Words } from '../../ui/Choice.tsx';
import { Row, Stack } from '../../ui/Layout.tsx';
import { NumberField } from '../../ui/NumberFields.tsx';
import { Refusal } from '../../ui/States.tsx';
import css from './Containers.module.css';

const EIGHTHS = ['0', '1', '2', '3', '4', '5', '6', '7', '8'] as const;
type Eighth = (typeof EIGHTHS)[number];
type Scales = {
  readonly grossMg: number | null;
  readonly tareMg: number | null;
  readonly density: number | null;
};

/** What is left in a container: its level in eighths, or what the scales say. */
export function RestForm(props: { readonly of: ContainerView; readonly onDone: () => void }): ReactNode {
  const t = useText();
  const { of } = props;
  const [how, setHow] = useState<'level' | 'weight'>(of.how === 'weight' ? 'weight' : 'level');
  const [level, setLevel] = useState<Eighth | null>(null);
  const [scales, setScales] = useState<Scales>({ ...of, grossMg: null, density: of.gramsPerLitre });
  const say = useCommand('stock.readContainer');
  const read = how === 'level' ? levelOf(level) : weightOf(of, scales);
  async function save(): Promise<void> {
    if (read === null) return;
    const done = await say.run({ containerId: of.id, read });
    if (done.ok) props.onDone();
  }
  return (
    <Stack gap={2}>
      {of.unit === 'ul' || of.unit === 'mg' ? (
        <Words
          label={t('stock.ui.readRest')}
          value={how}
          onChange={setHow}
          options={[
            { value: 'level', label: t('stock.ui.byLevel') },
            { value: 'weight', label: t('stock.ui.byWeight') },
          ]}
        />
      ) : null}
      {how === 'level' ? (
        <Segmented
          label={t('stock.ui.level')}
          value={level}
          onChange={setLevel}
          options={EIGHTHS.map((e) => ({ value: e, label: e }))}
        />
      ) : (
        <Weighed unit={of.unit} value={scales} onChange={setScales} />
      )}
      <Refusal refusal={say.refusal} />
      <Row>
        <Button
          kind="go"
          busy={say.busy}
          why={read === null ? t('stock.ui.restFirst') : undefined}
          onPress={() => void save()}
        >
          {t('stock.ui.restSave')}
        </Button>
        <LinkButton onPress={props.onDone}>{t('stock.ui.leave')}</LinkButton>
      </Row>
    </Stack>
  );
}

function levelOf(level: Eighth | null) {
  return level === null ? null : { level: Number(level), of: 8 as const };
}

function weightOf(of: ContainerView, { grossMg, tareMg, density }: Scales) {
  if (grossMg === null || tareMg === null || (of.unit === 'ul' && density === null)) return null;
  return { grossMg, tareMg, gramsPerLitre: of.unit === 'ul' ? density : null };
}

function Weighed(props: {
  readonly unit: ContainerView['unit'];
  readonly value: Scales;
  readonly onChange: (value: Scales) => void;
}): ReactNode {
  const t = useText();
  const { value, onChange } = props;
  return (
    <div className={css['fields']}>
      <AmountField
        label={t('stock.ui.gross')}
        unit="mg"
        value={value.grossMg}
        autoFocus
        onChange={(grossMg) => onChange({ ...value, grossMg })}
      />
      <AmountField
        label={t('stock.ui.tare')}
        unit="mg"
        value={value.tareMg}
        onChange={(tareMg) => onChange({ ...value, tareMg })}
      />
      {props.unit === 'ul' ? (
        <NumberField
          label={t('stock.ui.density')}
          hint={t('stock.ui.densityHint')}
          value={value.density === null ? null : value.density / 1000}
          onChange={(g) => onChange({ ...value, density: g === null ? null : Math.round(g * 1000) })}
          min={0.3}
          max={3}
          step={0.01}
          digits={3}
          unit="g/ml"
        />
      ) : null}
    </div>
  );
}
