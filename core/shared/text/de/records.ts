import type { PaperKey } from '../paperKeys.ts';

/** The record of a car, its care, messages and calendar in German. */
export const deRecords = {
  'doc.record.arrival': 'Fahrzeugannahme',
  'doc.record.handover': 'Fahrzeugübergabe',
  'doc.record.mileage': 'Kilometerstand',
  'doc.record.keys': 'Schlüssel',
  'doc.record.belongings': 'Im Fahrzeug',
  'doc.record.pictures': 'Bilder',
  'doc.record.pictures.none': 'keine erlaubt',
  'doc.record.pictures.record': 'nur für die Unterlagen des Betriebs',
  'doc.record.pictures.publish': 'für die Unterlagen des Betriebs, dürfen auch gezeigt werden',
  'doc.record.note': 'Notiz',
  'doc.record.damage': 'Vorhandene Schäden',
  'doc.record.damageLine': '{panel}: {note}',
  'doc.record.done': 'Ausgeführte Arbeiten',
  'doc.record.nothingDone': 'Am Fahrzeug wurde nicht gearbeitet.',
  'doc.record.stays': 'Was vereinbarungsgemäß bleibt',
  'doc.record.film': 'Verbliebene Schichtdicke',
  'doc.record.lowestAfter': 'nach der Arbeit',
  'doc.record.filmNote':
    'Mit dem Schichtdickenmessgerät an einzelnen Stellen gemessen; jeder Wert hat die Unsicherheit des Geräts, und keine Stelle steht für eine Kante.',
  'doc.record.word.arrival': 'Einverstanden: {name} ({way}), {when}.',
  'doc.record.word.handover': 'Übernommen: {name} ({way}), {when}.',
  'doc.record.by': 'Für den Betrieb: {name}',
  'record.way.signature': 'unterschrieben',
  'record.way.printedForm': 'auf dem Ausdruck unterschrieben',
  'record.way.spoken': 'mündlich',
  'card.panel': 'Bauteil',
  'card.lowest': 'kleinster Messwert',
  'card.mayTake': 'darf noch abgetragen werden',

  'doc.care': 'Pflegehinweise',
  'doc.care.dry':
    'Halten Sie die frische Beschichtung die ersten 24 Stunden trocken: kein Regen, kein Tau, keine Wäsche. Tupfen Sie Tropfen mit einem sauberen, weichen Tuch ab; nicht reiben.',
  'doc.care.noWash': '7 Tage lang kein Shampoo, kein Reiniger, kein Wachs und keine Politur darauf.',
  'doc.care.spots':
    'Parken Sie in diesen Tagen nicht unter Bäumen oder neben Rasensprengern: Eingetrocknete Tropfen können bleibende Flecken hinterlassen.',
  'doc.care.thin':
    'Nassschliff trägt Klarlack dauerhaft ab: Dort ist er dünner als zuvor. Lassen Sie ihn von niemandem wieder schleifen, auch nicht an einer einzelnen Stelle, bevor die Schichtdicke gemessen ist.',
  'doc.care.sun':
    'Dünnerer Klarlack verträgt weniger Sonne: Halten Sie ihn unter Wachs, Versiegelung oder Beschichtung und möglichst im Schatten.',
  'doc.care.birds':
    'Entfernen Sie Vogelkot, Baumharz und Insekten sofort mit viel Wasser und einem sauberen, weichen Tuch. Nicht kratzen, nicht trocken wischen.',
  'doc.care.byHand':
    'Erst abspülen, dann von oben nach unten von Hand mit sauberem Waschhandschuh und pH-neutralem Shampoo waschen. Mit sauberen, weichen Tüchern trocknen.',
  'doc.care.noBrushes':
    'Keine Bürstenwäsche, Staub nicht trocken abwischen, keine Scheuermittel, keine Haushaltsreiniger.',
  'doc.care.readFirst':
    'Lack lässt sich nicht beliebig oft polieren: Lassen Sie die Schichtdicke messen, bevor jemand ihn wieder mit der Maschine poliert.',
  'doc.care.sheet':
    'Wo das Datenblatt des Herstellers der Beschichtung anderes sagt, gilt das Datenblatt. Fragen Sie uns, bevor Sie etwas versuchen.',
  'doc.care.rules':
    'Wo das Datenblatt des Herstellers des Lacks oder des aufgetragenen Mittels oder die Vorschriften Ihres Ortes anderes sagen, gelten diese.',

  'doc.mail.arrivalSubject': 'Ihr {vehicle} ist bei uns',
  'doc.mail.arrivalBody':
    'Guten Tag {name},\n\nim Anhang finden Sie, was wir bei der Annahme Ihres {vehicle} festgehalten haben: Schlüssel, Kilometerstand, Inhalt und vorhandene Schäden.\n\n{shop}\n{phone}',
  'doc.mail.handoverSubject': 'Ihr {vehicle}, Übergabe',
  'doc.mail.handoverBody':
    'Guten Tag {name},\n\nim Anhang finden Sie das Protokoll der Übergabe Ihres {vehicle}: was gemacht wurde, was bleibt, die verbliebene Schichtdicke und wie Sie den Lack pflegen.\n\n{shop}\n{phone}',
  'doc.mail.quoteSubject': 'Angebot {number} für Ihren {vehicle}',
  'doc.mail.quoteBody':
    'Guten Tag {name},\n\nim Anhang finden Sie unser Angebot {number} für Ihren {vehicle}, gültig bis {until}. Es sagt auch, was eine Politur nicht behebt.\n\nWenn Sie einverstanden sind, antworten Sie bitte mit der gewählten Variante.\n\n{shop}\n{phone}',
  'doc.mail.invoiceSubject': 'Rechnung {number}',
  'doc.mail.invoiceBody':
    'Guten Tag {name},\n\nim Anhang finden Sie die Rechnung {number} vom {day} über {amount}, zahlbar bis {due}.\n\n{shop}\n{phone}',
  'doc.mail.creditSubject': 'Rechnungskorrektur {number}',
  'doc.mail.creditBody':
    'Guten Tag {name},\n\nim Anhang finden Sie die Rechnungskorrektur {number} vom {day} über {amount}.\n\n{shop}\n{phone}',
  'bays.calendar.dropOff': 'Annahme {who}',
  'bays.calendar.pickUp': 'Abholung {who}',
} as const satisfies Partial<Record<PaperKey, string>>;
