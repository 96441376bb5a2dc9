import path from 'node:path';

/** The file below `folder` that a URL path asks for, or null when it leads out of it. ("/ui-evil" starts with "/ui".) */
export function containedPath(folder: string, urlPath: string): string | null {
  let decoded: string;
  try {
    decoded = decodeURIComponent(urlPath);
  } catch {
    return null;
  }
  if (decoded.includes('\0')) return null;
  const file = path.resolve(folder, `.${path.posix.normalize(`/${decoded.replaceAll('\\', '/')}`)}`);
  const relative = path.relative(folder, file);
  return relative.startsWith('..') || path.isAbsolute(relative) ? null : file;
}
