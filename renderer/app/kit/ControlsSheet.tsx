import { type ReactNode, useState } from 'react';
import type { EpochMs, LocalDay } from '#core/shared/units.ts';
import { Button, LinkButton } from '../../ui/Button.tsx';
import { Check, Segmented, Switch, Words } from '../../ui/Choice.tsx';
import { DateTimeField, DayField } from '../../ui/DateFields.tsx';
import { TextField } from '../../ui/Field.tsx';
import { Head, Row, Stack } from '../../ui/Layout.tsx';
import { HoursField, MoneyField, NumberField } from '../../ui/NumberFields.tsx';
import { Select } from '../../ui/Select.tsx';
import { Table } from '../../ui/Table.tsx';
import css from './Kit.module.css';

const BODIES = [
  { value: 'saloon', label: 'saloon' },
  { value: 'hatch', label: 'hatch' },
  { value: 'estate', label: 'estate', note: 'long roof' },
] as const;
const ROWS = [
  { id: '0412', name: 'Lena Okoro', promise: 'today 11:30', sure: '', lit: false },
  {
    id: '0414',
    name: 'Dev Ostler with a name that does not end where the column ends',
    promise: 'today 17:30',
    sure: '31 %',
    lit: true,
  },
  { id: '0415', name: 'Anton Brisk', promise: 'Fri 12:00', sure: '91 %', lit: false },
] as const;

/** Fields, choices, buttons and a table. */
export function ControlsSheet(): ReactNode {
  const [text, setText] = useState('deep blue');
  const [mileage, setMileage] = useState<number | null>(48210);
  const [price, setPrice] = useState<number | null>(108468);
  const [minutes, setMinutes] = useState<number | null>(570);
  const [at, setAt] = useState<EpochMs | null>(Date.UTC(2026, 10, 27, 16, 30) as EpochMs);
  const [day, setDay] = useState<LocalDay | null>('2026-11-27' as LocalDay);
  const [body, setBody] = useState<string | null>('hatch');
  return (
    <>
      <Stack gap={3}>
        <Head title="Fields" note="saved as you go" />
        <div className={css['fields']}>
          <TextField label="colour" value={text} onChange={setText} />
          <NumberField label="mileage" unit="km" value={mileage} onChange={setMileage} min={0} />
          <MoneyField label="ceiling" hint="with tax" value={price} onChange={setPrice} />
          <HoursField label="hours" value={minutes} onChange={setMinutes} />
          <NumberField
            label="reading"
            unit="µm"
            value={1260}
            onChange={() => undefined}
            error="Ten times the door beside it. 126?"
          />
          <TextField
            label="number"
            value="issued 24 Nov"
            onChange={() => undefined}
            off="Issued: only a credit note corrects it."
          />
          <DateTimeField label="promise" value={at} onChange={setAt} />
          <DayField label="good to" value={day} onChange={setDay} />
          <Select label="body" options={BODIES} value={body as 'hatch'} onChange={setBody} />
          <TextField label="in her words" value="Swirls in the sun." onChange={() => undefined} lines={2} />
        </div>
      </Stack>
      <Choices />
      <Stack gap={2}>
        <Head title="Table" note="32 px rows, arrows walk" />
        <Picked />
      </Stack>
    </>
  );
}

function Choices(): ReactNode {
  const [layer, setLayer] = useState<'findings' | 'film' | 'plan'>('film');
  const [by, setBy] = useState<'hours' | 'money'>('money');
  const [on, setOn] = useState(true);
  return (
    <Stack gap={3}>
      <Head title="Choices and buttons">
        <LinkButton quiet onPress={() => undefined}>
          All of them
        </LinkButton>
      </Head>
      <Words
        label="layer"
        value={layer}
        onChange={setLayer}
        options={[
          { value: 'findings', label: 'Findings', count: 4 },
          { value: 'film', label: 'Film' },
          { value: 'plan', label: 'Plan' },
        ]}
      />
      <Segmented
        label="ceiling in"
        value={by}
        onChange={setBy}
        options={[
          { value: 'hours', label: 'hours' },
          { value: 'money', label: 'money' },
        ]}
      />
      <Row>
        <Check label="may be published" value={on} onChange={setOn} />
        <Switch label="prices with tax" value={on} onChange={setOn} />
      </Row>
      <Row>
        <Button kind="go" onPress={() => undefined}>
          Book A
        </Button>
        <Button onPress={() => undefined}>Print</Button>
        <Button onPress={() => undefined} why="No e-mail is known.">
          Send
        </Button>
        <LinkButton onPress={() => undefined}>Not today</LinkButton>
      </Row>
      <Row>
        <Button kind="final" onPress={() => undefined}>
          Issue it
        </Button>
        <Button onPress={() => undefined} keys="Ctrl Enter">
          Next
        </Button>
      </Row>
    </Stack>
  );
}

function Picked(): ReactNode {
  const [row, setRow] = useState<string | null>('0414');
  return (
    <Table
      label="jobs"
      rows={ROWS}
      rowKey={(r) => r.id}
      selected={row}
      onSelect={setRow}
      lit={(r) => r.lit}
      columns={[
        { key: 'no', head: 'no.', width: '56px', cell: (r) => <span className="dusty">{r.id}</span> },
        { key: 'name', head: 'customer', width: 'auto', cell: (r) => <strong>{r.name}</strong> },
        {
          key: 'promise',
          head: 'promise',
          width: '104px',
          cell: (r) => <span className={r.lit ? 'lamp' : ''}>{r.promise}</span>,
        },
        { key: 'sure', head: 'sure', width: '56px', align: 'right', cell: (r) => r.sure },
      ]}
      sum={['', 'three', '', '']}
    />
  );
}
