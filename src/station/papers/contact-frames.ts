import { dayMoment } from '../../base/index.ts';
import { applyMatrix, invertMatrix, type Matrix3 } from '../../colour/index.ts';
import type { Frame } from '../../contract/index.ts';
import {
  inChosenOrder,
  isForGuests,
  isOfTheShoot,
  type Mark,
  type SharePoint,
  standingOf,
} from '../../facts/index.ts';
import { type Job, listedShots } from '../../job/index.ts';
import type { ContactFrame, ContactSection } from '../../paper/index.ts';
import {
  contactPaperLabels,
  markNames,
  pinNames,
  sentence,
  standingNames,
  withoutExtension,
} from '../../words/index.ts';
import { tickFor } from './moments.ts';

export interface ContactChoice {
  /** Id of a shot; undefined for all, and frames of none. */
  readonly shot: string | undefined;
  /** Undefined for any, none too. */
  readonly marks: readonly Mark[] | undefined;
  /** For the client: what guests see, without verdicts and without what is said among ourselves. */
  readonly forClient: boolean;
  /** A guest asks: frames of these shots, of all where none is named. */
  readonly forGuest: { readonly shots: readonly string[] } | null;
}

/** Whether a frame is printed. */
export function isAsked({ shot, marks, forClient, forGuest }: ContactChoice): (frame: Frame) => boolean {
  return (frame) =>
    isOfTheShoot(frame) &&
    (shot === undefined || frame.shot === shot) &&
    (marks === undefined || marks.includes(frame.mark)) &&
    (!forClient || isForGuests(frame)) &&
    isOfGuest(forGuest, frame.shot);
}

function isOfGuest(guest: ContactChoice['forGuest'], shot: string | null): boolean {
  return guest === null || guest.shots.length === 0 || (shot !== null && guest.shots.includes(shot));
}

/**
 * Frames (in the order of the day) under their shots, in the order of the list; behind them those of shots that were taken from
 * it, and of none. Each shot's in the order that counts for it (`inChosenOrder`), heroes large.
 */
export function contactSections(job: Job, frames: readonly Frame[], forClient: boolean): ContactSection[] {
  const tick = tickFor(frames.map(momentOf));
  const listed = listedShots(job);
  const others = job.shots.filter((shot) => !listed.includes(shot));
  const known = [...listed, ...others];
  const groups = new Map<string | null, Frame[]>(known.map(({ id }) => [id, []]));
  for (const frame of frames) {
    const group = groups.get(frame.shot);
    if (group === undefined) groups.set(frame.shot, [frame]);
    else group.push(frame);
  }
  const shotless = groups.get(null) ?? [];
  groups.delete(null);
  return [...groups, [null, shotless] as const].flatMap(([id, own]) => {
    if (own.length === 0) return [];
    const shot = known.find((each) => each.id === id);
    const ordered = inChosenOrder(own, shot?.order ?? []);
    const heroes = ordered.filter(({ mark }) => mark === 'hero');
    const printed = (frame: Frame): ContactFrame => contactFrame(frame, forClient, tick);
    const rest = ordered.filter(({ mark }) => mark !== 'hero');
    return [
      {
        name: id === null ? contactPaperLabels.noShot : (shot?.name ?? id),
        heroes: heroes.map(printed),
        frames: rest.map(printed),
        remarks: [...heroes, ...rest].flatMap((frame) => remarkLines(frame, forClient)),
      },
    ];
  });
}

function contactFrame(frame: Frame, forClient: boolean, tick: (atMs: number) => string): ContactFrame {
  const { id, name, mark, picture } = frame;
  const standing = standingOf(frame, picture.state === 'cannot' ? picture.reason.code : null);
  const remarks = told(frame, forClient);
  const words = [
    tick(momentOf(frame)),
    ...(mark === 'none' ? [] : [markNames[mark]]),
    ...(forClient || standing === 'good' ? [] : [standingNames[standing]]),
  ];
  return {
    id,
    name: forClient ? withoutExtension(name) : name,
    lines: [
      words.join(', '),
      ...(remarks.length === 0 ? [] : [contactPaperLabels.remarks(remarks.map((each) => each.pin))]),
    ],
    mark,
    standing: forClient ? null : standing,
    pins: remarks.flatMap(({ pin, remark }) => {
      const at = remark.point === null ? null : shownAt(picture, remark.point);
      return at === null ? [] : [{ name: pin, ...at }];
    }),
    aspect: picture.state === 'rendered' ? picture.width / picture.height : null,
    why: whyNone(picture),
  };
}

function whyNone(picture: Frame['picture']): string {
  if (picture.state === 'cannot') return sentence(picture.reason);
  return picture.state === 'rendered' ? contactPaperLabels.notReadable : contactPaperLabels.notYet;
}

type Remark = Frame['remarks'][number];

/** Remarks with what stands on their pins, the same as on the pages: a guest's do not count what was said inside. */
function told({ remarks }: Frame, forClient: boolean): { readonly pin: string; readonly remark: Remark }[] {
  const seen = remarks.filter(({ inside }) => !forClient || !inside);
  const pins = pinNames(seen);
  return seen.map((remark) => ({ pin: pins.get(remark.id) ?? '', remark }));
}

function remarkLines(frame: Frame, forClient: boolean): ContactSection['remarks'][number][] {
  return told(frame, forClient).flatMap(({ pin, remark: { by, text, settled, answers } }) => {
    const lead = contactPaperLabels.remarkLead(pin, frame.name, by.name);
    const end = settled === null ? '' : ` (${contactPaperLabels.settled})`;
    return [
      { lead, text: `${text}${end}` },
      ...answers.map((answer) => ({
        lead: '',
        text: contactPaperLabels.answer(answer.by.name, answer.text),
      })),
    ];
  });
}

/** Where a place of the original lies in the picture shown, shares; null where the look cut it off, or nobody knows. */
function shownAt(picture: Frame['picture'], point: SharePoint): SharePoint | null {
  const original = picture.state === 'rendered' ? picture.original : null;
  if (original === null) return point;
  const toShown = original.toOriginal === null ? null : inverseOf(original.toOriginal);
  if (toShown === null) return null;
  const [x, y, w] = applyMatrix(toShown, [point.x, point.y, 1]);
  const at = { x: x / w, y: y / w };
  return at.x >= 0 && at.x <= 1 && at.y >= 0 && at.y <= 1 ? at : null;
}

function inverseOf(numbers: readonly number[]): Matrix3 | null {
  const [a = 0, b = 0, c = 0, d = 0, e = 0, f = 0, g = 0, h = 0, i = 0] = numbers;
  return invertMatrix([a, b, c, d, e, f, g, h, i]);
}

/** Its place in the day, as the pages have it. */
function momentOf({ times: { shutter, began, firstByte, kept } }: Frame): number {
  const ms = (instant: string | null): number | null => (instant === null ? null : Date.parse(instant));
  return dayMoment(ms(shutter), ms(began) ?? ms(firstByte)) ?? ms(kept) ?? 0;
}
