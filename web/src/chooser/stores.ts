import { call } from '../api';

/** The stores opened lately at this machine, as `sherdwright open` tells them (src/http/chooser.h). */
export interface Listed {
  path: string;
  name: string;
  folder: string;
  code: string;
  title: string;
  opened_at: string;
  there: boolean;
}

export interface Stores {
  stores: Listed[];
  folder: string;
  problem: string;
}

export interface Folder {
  folder: string;
  above: string;
  folders: string[];
  stores: string[];
}

interface Opened {
  url: string;
}

export const stores = () => call<Stores>('GET', '/api/recent');
export const folder = (path: string) =>
  call<Folder>('GET', `/api/recent/folder?${new URLSearchParams({ folder: path })}`);
export const open = (path: string) => call<Opened>('POST', '/api/recent/open', { path });
export const make = (request: { folder: string; code: string; title: string }) =>
  call<Opened>('POST', '/api/recent/new', request);
export const demo = (path: string) => call<Opened>('POST', '/api/recent/demo', { folder: path });
export const forget = (path: string) => call<Stores>('POST', '/api/recent/forget', { path });

/** "/home/kv" and "mill.sherds" -> "/home/kv/mill.sherds" */
export function within(folder: string, name: string): string {
  return folder.endsWith('/') ? folder + name : `${folder}/${name}`;
}
