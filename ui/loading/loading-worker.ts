import { config } from 'zod';
import { type DeskQuestion, loadingDesk } from './loading-desk.ts';

// As in the page: its policy forbids code made from text.
config({ jitless: true });

const desk = loadingDesk();
addEventListener('message', (event: MessageEvent<DeskQuestion>) => postMessage(desk(event.data)));
