; SYNTAX TEST "source.nc-program" "process notes in parentheses"
(HOBBING: MODULE=2 HELIX=-.15 HAND=RIGHT FACE=20.)
; <- comment.block.note.nc-program punctuation.definition.comment.begin.nc-program
;^^^^^^^ comment.block.note.nc-program entity.name.type.process.nc-program
;       ^ punctuation.separator.process.nc-program
;         ^^^^^^ variable.parameter.note.nc-program
;               ^ keyword.operator.assignment.nc-program
;                ^ constant.numeric.nc-program
;                        ^^^^ constant.numeric.nc-program
;                             ^^^^ variable.parameter.note.nc-program
;                                  ^^^^^ string.unquoted.value.nc-program
;                                             ^^^ constant.numeric.nc-program
;                                                ^ punctuation.definition.comment.end.nc-program
(+ HOB-DIA=63 TEXT="A 12" STROKE= COUNT=1X lost)
; <- comment.block.note.nc-program
;^ comment.block.note.nc-program keyword.operator.continuation.nc-program
;  ^^^^^^^ variable.parameter.note.nc-program
;          ^^ constant.numeric.nc-program
;                  ^^^^^^ string.quoted.double.nc-program
;                                ^ - string.unquoted.value.nc-program
;                                 ^^^^^ variable.parameter.note.nc-program
;                                       ^^ string.unquoted.value.nc-program - constant.numeric.nc-program
;                                          ^^^^ comment.block.note.nc-program - variable.parameter.note.nc-program string.unquoted.value.nc-program
(END HOBBING)
;^^^ comment.block.note.nc-program keyword.other.end.nc-program
;    ^^^^^^^ comment.block.note.nc-program entity.name.type.process.nc-program
;           ^ punctuation.definition.comment.end.nc-program
N10 ( KEYWAY : BORE=50) G0
;     ^^^^^^ entity.name.type.process.nc-program
;              ^^^^ variable.parameter.note.nc-program
;                       ^^ keyword.control.preparatory.nc-program - comment.block.note.nc-program
(KEYWAY: BORE=50
;        ^^^^ variable.parameter.note.nc-program
G0 BORE=50
; <-- keyword.control.preparatory.nc-program
;  ^^^^ - variable.parameter.note.nc-program
(KEYWAY: BORE=(50) G0
;             ^ invalid.illegal.nested-parenthesis.nc-program
;                  ^^ keyword.control.preparatory.nc-program
(NOTE: CHECK THE HAND)
;^^^^ comment.block.parenthesis.nc-program - entity.name.type.process.nc-program
(+ 5 DEGREES)
;^ comment.block.parenthesis.nc-program - keyword.operator.continuation.nc-program
(hobbing: module=2)
;^^^^^^^ comment.block.parenthesis.nc-program - entity.name.type.process.nc-program
(END OF PART ONE)
;^^^ comment.block.parenthesis.nc-program - keyword.other.end.nc-program
