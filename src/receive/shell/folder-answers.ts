import { errorCode, exhaustive } from '../../base/index.ts';
import { type CameraFolder, type FolderErrorCode, folderErrorCodes } from '../core/camera-folder.ts';
import type { FolderAnswer, FolderQuestions } from '../core/folder-questions.ts';

type FolderQuestion = {
  [Name in keyof FolderQuestions]: { readonly name: Name; readonly request: FolderQuestions[Name][0] };
}[keyof FolderQuestions];

/** Puts one question to a camera's folder. */
export function askFolder(folder: CameraFolder, { name, request }: FolderQuestion): Promise<unknown> {
  switch (name) {
    case 'list':
      return folderAnswer(folder.list(request.path));
    case 'stat':
      return folderAnswer(folder.stat(request.path));
    case 'make-folder':
      return folderAnswer(folder.makeFolder(request.path));
    case 'remove-folder':
      return folderAnswer(folder.removeFolder(request.path));
    case 'rename':
      return folderAnswer(folder.rename(request.from, request.to));
    case 'hide':
      return folderAnswer(folder.hide(request.path));
    case 'set-modified':
      return folderAnswer(folder.setModified(request.path, request.modifiedMs));
    default:
      return exhaustive(name);
  }
}

/** A folder's promise as data. What it should never reject with counts as a failed disk: the client tries again. */
export async function folderAnswer<Value>(asked: Promise<Value>): Promise<FolderAnswer<Value>> {
  try {
    return { ok: true, value: await asked };
  } catch (trouble) {
    return { ok: false, code: folderCode(errorCode(trouble)) };
  }
}

function folderCode(code: string): FolderErrorCode {
  return folderErrorCodes.find((known) => known === code) ?? 'disk-failed';
}
