import { expect, test } from 'vitest';
import { UndoStack } from './undo';

test('the newest goes back first, and comes again first', () => {
  const stack = new UndoStack();
  stack.made({ seq: 1, label: 'a' });
  stack.made({ seq: 2, label: 'b' });
  expect(stack.next_undo?.label).toBe('b');
  stack.undone(2, 3);
  expect(stack.next_undo?.label).toBe('a');
  stack.undone(1, 4);
  expect(stack.next_undo).toBeNull();
  expect(stack.next_redo).toEqual({ seq: 4, label: 'a' });
  stack.redone(4, 5);
  expect(stack.next_undo).toEqual({ seq: 5, label: 'a' });
  expect(stack.next_redo).toEqual({ seq: 3, label: 'b' });
});

test('a new change ends what could be brought again', () => {
  const stack = new UndoStack();
  stack.made({ seq: 1, label: 'a' });
  stack.undone(1, 2);
  stack.made({ seq: 3, label: 'b' });
  expect(stack.next_redo).toBeNull();
});

test('keys in quick succession go one further each, before the program has answered', () => {
  const stack = new UndoStack();
  stack.made({ seq: 1, label: 'a' });
  stack.made({ seq: 2, label: 'b' });
  stack.going(2);
  expect(stack.next_undo?.seq).toBe(1);
  stack.going(1);
  expect(stack.next_undo).toBeNull();
  stack.undone(2, 3);
  stack.undone(1, 4);
  expect(stack.next_redo?.seq).toBe(4);
});

test('one that can not be taken back is left out', () => {
  const stack = new UndoStack();
  stack.made({ seq: 1, label: 'a' });
  stack.made({ seq: 2, label: 'b' });
  stack.going(2);
  stack.dropped(2);
  expect(stack.next_undo?.seq).toBe(1);
});
