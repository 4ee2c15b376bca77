import { type ReactNode, useId, useState } from 'react';
import type { CameraEntry, CameraPatch } from '../../contract/index.ts';
import { doorNames, pageLabels } from '../../words/index.ts';
import { patchCamera } from '../link/index.ts';

const doors = ['ftp', 'ftps', 'sftp'] as const;

/** Where one camera may come from and by which doors, a new password, and its end, which can be taken back. */
export function CameraAccess({ camera }: { readonly camera: CameraEntry }): ReactNode {
  const [refusal, setRefusal] = useState('');
  const change = (patch: CameraPatch): void => {
    patchCamera(camera.name, patch).then(
      () => setRefusal(''),
      (thrown: unknown) => setRefusal(thrown instanceof Error ? thrown.message : pageLabels.notTaken),
    );
  };
  return (
    <details className="camera-access">
      <summary>
        {camera.name}: {camera.ended ? pageLabels.accessEnded : pageLabels.access}
      </summary>
      <AllowField key={camera.allow.join()} camera={camera} change={change} />
      <DoorChoice camera={camera} change={change} />
      <div className="camera-acts">
        <button type="button" onClick={() => change({ newPassword: true })}>
          {pageLabels.newPassword}
        </button>
        <button type="button" onClick={() => change({ ended: !camera.ended })}>
          {camera.ended ? pageLabels.letInAgain : pageLabels.endCamera}
        </button>
      </div>
      <p role="status">{refusal}</p>
    </details>
  );
}

interface AccessProps {
  readonly camera: CameraEntry;
  readonly change: (patch: CameraPatch) => void;
}

/** Taken when the field is left or Enter is pressed, like any setting. */
function AllowField({ camera, change }: AccessProps): ReactNode {
  const id = useId();
  const [text, setText] = useState(camera.allow.join(', '));
  const take = (): void => {
    const allow = text.split(/[\s,;]+/).filter((rule) => rule !== '');
    if (allow.join() !== camera.allow.join()) change({ allow });
  };
  return (
    <div className="camera-field">
      <label htmlFor={id}>{pageLabels.allowFrom}</label>
      <input
        id={id}
        value={text}
        placeholder={pageLabels.allowEverywhere}
        aria-describedby={`${id}-help`}
        spellCheck={false}
        onChange={(event) => setText(event.target.value)}
        onBlur={take}
        onKeyDown={(event) => {
          if (event.key === 'Enter') take();
        }}
      />
      <small id={`${id}-help`}>{pageLabels.allowHelp}</small>
    </div>
  );
}

/** At least one door stays: a camera that may come in by none is ended, and that has its own button. */
function DoorChoice({ camera, change }: AccessProps): ReactNode {
  const only = camera.protocols.length === 1;
  return (
    <fieldset className="camera-field">
      <legend>{pageLabels.comesBy}</legend>
      <div className="camera-choices">
        {doors.map((door) => {
          const isOpen = camera.protocols.includes(door);
          const others = camera.protocols.filter((name) => name !== door);
          return (
            <label key={door}>
              <input
                type="checkbox"
                checked={isOpen}
                disabled={isOpen && only}
                onChange={() => change({ protocols: isOpen ? others : [...camera.protocols, door] })}
              />
              {doorNames[door]}
            </label>
          );
        })}
      </div>
    </fieldset>
  );
}
