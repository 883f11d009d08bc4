;; Emacs, 29 or later, or 28 with the package eglot. Put this in your init file, ~/.emacs.d/init.el.
;; Hover is M-x eldoc, a correction M-x eglot-code-actions, another name M-x eglot-rename.
(define-derived-mode quilt-pattern-mode conf-colon-mode "Quilt pattern"
  "A manuscript of a quilt pattern."
  (setq-local comment-start "# " indent-tabs-mode nil))
(add-to-list 'auto-mode-alist '("\\.pattern\\.ya?ml\\'" . quilt-pattern-mode))
(add-to-list 'auto-mode-alist '("/house-rules\\.yaml\\'" . quilt-pattern-mode))
(require 'eglot)
;; strict: queries are errors. signed: every manuscript must be signed off. hints: what is needed, at each number.
(add-to-list 'eglot-server-programs
             '(quilt-pattern-mode . ("sparestrip" "lsp" :initializationOptions
                                     (:strict :json-false :signed :json-false :hints :json-false))))
(add-hook 'quilt-pattern-mode-hook #'eglot-ensure)
