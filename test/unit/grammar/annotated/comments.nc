; SYNTAX TEST "source.nc-program" "comments, and what they keep from being read as words"
G0 (X1 IS NOT A WORD) X1
;  ^ comment.block.parenthesis.nc-program punctuation.definition.comment.begin.nc-program
;   ^^^^^^^^^^^^^^^^ comment.block.parenthesis.nc-program - variable.other.axis.nc-program constant.numeric.nc-program
;                   ^ punctuation.definition.comment.end.nc-program
;                     ^ variable.other.axis.nc-program - comment.block.parenthesis.nc-program
X(BETWEEN)1
; <- - variable.other.axis.nc-program
;^ comment.block.parenthesis.nc-program
;         ^ - constant.numeric.nc-program
G1 ; G2 (X3
;  ^ comment.line.semicolon.nc-program punctuation.definition.comment.nc-program
;   ^^^^^^^ comment.line.semicolon.nc-program - keyword.control.preparatory.nc-program comment.block.parenthesis.nc-program
G1 (left open X2
;  ^^^^^^^^^^^^^ comment.block.parenthesis.nc-program
G2 X3
; <-- keyword.control.preparatory.nc-program - comment.block.parenthesis.nc-program
(outer (inner) G3 X4
;      ^ comment.block.parenthesis.nc-program invalid.illegal.nested-parenthesis.nc-program
;       ^^^^^^ comment.block.parenthesis.nc-program - invalid.illegal.nested-parenthesis.nc-program
;              ^^ keyword.control.preparatory.nc-program - comment.block.parenthesis.nc-program
(MSG, CHECK THE CLAMP)
;^^^ comment.block.parenthesis.nc-program keyword.other.message.nc-program
;     ^^^^^ comment.block.parenthesis.nc-program - keyword.other.message.nc-program
( m s g , check)
; ^^^^^ keyword.other.message.nc-program
(MESSAGE)
;^^^^^^^ comment.block.parenthesis.nc-program - keyword.other.message.nc-program
()X1
; <-- comment.block.parenthesis.nc-program
; ^ variable.other.axis.nc-program
