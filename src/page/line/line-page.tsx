import { type ReactNode, useMemo } from 'react';
import type { LineCheck, LineFinding } from '../../contract/index.ts';
import { firewallNames, lineLabels, placeInWords } from '../../words/index.ts';
import { AddCamera } from '../cameras/add-camera.tsx';
import { CameraAccess } from '../cameras/camera-access.tsx';
import { CertificateCard } from '../cameras/certificate-card.tsx';
import { DiaryList } from '../cameras/diary-list.tsx';
import { TopLine } from '../job/top-line.tsx';
import { clockTime, dayAndTime } from '../set/clock.ts';
import type { PageState } from '../state/index.ts';
import '../style/line.css';
import { CommandLines } from './command-lines.tsx';
import { FindingCard } from './finding-card.tsx';
import { LineCameras } from './line-cameras.tsx';
import { useLine } from './use-line.ts';
import { type WayPiece, wayOf } from './way.ts';
import { WayDrawing } from './way-drawing.tsx';

/** The way from camera to disk: where it is shut, what mends it, and what the cameras did. */
export function LinePage({ state }: { readonly state: PageState }): ReactNode {
  const { station } = state;
  const news =
    station?.cameras.map(({ name, connected, ended }) => `${name} ${connected} ${ended}`).join() ?? '';
  const { check, looking, failed, look } = useLine(news);
  const pieces = useMemo(
    () => (check === null || station === null ? null : wayOf(check, station, { when })),
    [check, station],
  );
  return (
    <div className="page-paper line-page" data-surround={state.dimSurround ? 'dim' : 'grey'}>
      <TopLine state={state} />
      <main className="line-sheet">
        <header className="paper line-head">
          <h1>{lineLabels.title}</h1>
          <p className="line-said" role="status">
            {failed ? lineLabels.failed : pieces === null ? lineLabels.looking : overall(pieces, check)}
          </p>
          <p className="line-soft">
            {check === null ? '' : lineLabels.lookedAt(clockTime(Date.parse(check.at)))}{' '}
            <button type="button" className="press" onClick={look} aria-disabled={looking}>
              {lineLabels.look}
            </button>
          </p>
        </header>
        {pieces === null ? null : <WayDrawing pieces={pieces} />}
        {check === null ? null : <Todo check={check} />}
        {station === null ? null : (
          <section className="paper line-part">
            <h2>{lineLabels.cameras}</h2>
            <LineCameras check={check} cameras={station.cameras} when={when} />
          </section>
        )}
        {station === null ? null : (
          <section className="paper line-part camera-house">
            <h2>{lineLabels.whoMayCome}</h2>
            {station.cameras.map((camera) => (
              <CameraAccess key={camera.name} camera={camera} />
            ))}
            <AddCamera />
          </section>
        )}
        {check === null ? null : <Firewall check={check} />}
        <section className="paper line-part lately">
          <DiaryList />
          {station === null ? null : <CertificateCard station={station} />}
        </section>
      </main>
    </div>
  );
}

/** A time of today, or a day and a time. */
function when(moment: string): string {
  const at = new Date(moment);
  return at.toDateString() === new Date().toDateString() ? clockTime(at.getTime()) : dayAndTime(at.getTime());
}

function overall(pieces: readonly WayPiece[], check: LineCheck | null): string {
  const at = (state: WayPiece['state']): string =>
    pieces
      .filter((piece) => piece.state === state)
      .map(({ place }) => placeInWords[place])
      .join(', ');
  if (at('shut') !== '') return lineLabels.shut(at('shut'));
  if (at('weak') !== '') return lineLabels.weak(at('weak'));
  if ((check?.findings ?? []).some(({ code }) => code === nothingCame)) return lineLabels.openUnproved;
  if (at('unknown') === '') return lineLabels.open;
  const isCameraSeen = pieces.some(({ place, state }) => place === 'camera' && state === 'open');
  return isCameraSeen ? lineLabels.openAsSeen : lineLabels.openUnproved;
}

const nothingCame = 'line-check.nothing-came';

function Todo({ check: { findings } }: { readonly check: LineCheck }): ReactNode {
  // Until a camera has come there is one thing to do, though nothing is known to be wrong.
  const isToDo = ({ weight, code }: LineFinding): boolean => weight !== 'note' || code === nothingCame;
  const pressing = findings.filter(isToDo);
  const notes = findings.filter((finding) => !isToDo(finding));
  return (
    <section className="paper line-part line-todo">
      <h2>{lineLabels.todo}</h2>
      {pressing.length === 0 ? <p>{lineLabels.nothingToDo}</p> : null}
      <ol className="line-findings">
        {pressing.map((finding) => (
          <FindingCard
            key={`${finding.code} ${finding.camera} ${JSON.stringify(finding.cause.args)}`}
            finding={finding}
          />
        ))}
      </ol>
      {notes.length === 0 ? null : (
        <>
          <h2>{lineLabels.good}</h2>
          <ul className="line-findings">
            {notes.map((finding) => (
              <FindingCard
                key={`${finding.code} ${finding.camera} ${JSON.stringify(finding.cause.args)}`}
                finding={finding}
              />
            ))}
          </ul>
        </>
      )}
    </section>
  );
}

function Firewall({ check: { firewall } }: { readonly check: LineCheck }): ReactNode {
  const { kind, read, commands } = firewall;
  return (
    <section className="paper line-part">
      <h2>{lineLabels.firewall}</h2>
      <p>
        {lineLabels.firewallKind(firewallNames[kind])}{' '}
        {read ? (commands.length === 0 ? lineLabels.firewallOpen : '') : lineLabels.firewallUnread}
      </p>
      {commands.length === 0 ? null : (
        <>
          <p>{lineLabels.firewallLines}</p>
          <CommandLines commands={commands} name={lineLabels.firewall} />
          <p className="line-soft">{lineLabels.neverRun}</p>
        </>
      )}
    </section>
  );
}
