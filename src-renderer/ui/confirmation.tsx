import type { ReactNode } from 'react';
import { Dialog, Heading, Modal, ModalOverlay } from 'react-aria-components';
import styles from './confirmation.module.css';

type Props = { readonly title: string; readonly children: ReactNode; readonly isOpen: boolean; readonly onClose: () => void };

/** A page laid on the board: its left edge is the nut, the window stays behind it, faint. Escape is the way out. */
export const Confirmation = ({ title, children, isOpen, onClose }: Props) => (
  <ModalOverlay
    className={styles['behind'] ?? ''}
    isOpen={isOpen}
    isDismissable
    onOpenChange={(open) => {
      if (!open) onClose();
    }}
  >
    <Modal className={styles['page'] ?? ''}>
      <Dialog className={styles['dialog'] ?? ''}>
        <Heading slot="title" level={1}>
          {title}
        </Heading>
        {children}
      </Dialog>
    </Modal>
  </ModalOverlay>
);
